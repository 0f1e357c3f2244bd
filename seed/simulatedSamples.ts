import type { ChannelMap } from "../shared/house/channels.ts";
import type { Sample } from "../shared/readings/judgeSample.ts";
import type { AircraftType, Gauge } from "../shared/types/schema.ts";

/** Samples of each channel in a second. */
export const RATE_HZ = 20;

/** Returns a channel for each gauge of a type, named as the gauge. */
export function simulatedChannels({ gauges, engines }: AircraftType): ChannelMap[] {
  return gauges.flatMap(({ id, unit, perEngine }): ChannelMap[] => {
    const channel = { channel: id, gauge: id, unit, quality: "simulated" };
    return perEngine
      ? engines.map((_engine, i) => ({ ...channel, engine: i + 1 }))
      : [{ ...channel, engine: null }];
  });
}

/** Returns what a logger of that aircraft sends for one moment: each gauge a little around the middle of its normal band. */
export function simulatedSamples(type: AircraftType, time: number): Sample[] {
  return simulatedChannels(type).map(({ channel, engine, unit }, i) => {
    const gauge = type.gauges.find((g) => g.id === channel) as Gauge;
    const { from, to } = gauge.scale;
    const low = gauge.normalLow ?? gauge.min ?? from;
    const high = gauge.normalHigh ?? gauge.max ?? to;
    // A slow wave and a fast one, each engine at its own place in them.
    const wave = 0.8 * Math.sin(time / 7_000 + i) + 0.1 * Math.sin(time / 90 + 3 * i);
    const value = Math.round(((low + high) / 2 + (wave * (high - low)) / 2) * 1_000) / 1_000;
    return { channel, engine, time, value, unit };
  });
}
