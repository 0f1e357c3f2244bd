import type { ChannelMap } from "../house/channels.ts";
import { type Band, gaugeBand } from "../models/gaugeBand.ts";
import type { AircraftType, Gauge } from "../types/schema.ts";

/** One value that an instrument sent. */
export interface Sample {
  channel: string;
  engine: number | null;
  /** Milliseconds since 1970, by the instrument's clock. */
  time: number;
  value: number;
  unit: string;
}

/** The reason why a sample is not taken. */
export type SampleFault = "unknownChannel" | "wrongUnit" | "outOfScale" | "stale" | "ahead" | "noLimit";

/** An instrument's clock may be ahead of the server's by this much. Milliseconds. */
const AHEAD_MS = 1_000;

/** `key`: the gauge and its engine, as one text for each place of a gauge. */
export type JudgedSample =
  | { ok: true; map: ChannelMap; key: string; band: Band }
  | { ok: false; fault: SampleFault };

export type SampleJudge = (sample: Sample, now: number) => JudgedSample;

export const gaugeKey = (gauge: string, engine: number | null): string => `${gauge} ${engine}`;

const FAULT = {
  unknownChannel: { ok: false, fault: "unknownChannel" },
  wrongUnit: { ok: false, fault: "wrongUnit" },
  outOfScale: { ok: false, fault: "outOfScale" },
  stale: { ok: false, fault: "stale" },
  ahead: { ok: false, fault: "ahead" },
  noLimit: { ok: false, fault: "noLimit" },
} as const satisfies { [F in SampleFault]: { ok: false; fault: F } };

/**
 * Returns what judges the samples of an aircraft as a person's reading is judged: the right channel and unit, on the
 * instrument's scale, and in addition younger than the type's limit. A type without that limit takes none. The channels
 * are looked up once, because hundreds of samples come in a second.
 */
export function sampleJudge(channels: readonly ChannelMap[], type: AircraftType): SampleJudge {
  const gauges = new Map(type.gauges.map((gauge) => [gauge.id, gauge]));
  const places = new Map<string, Map<number | null, { map: ChannelMap; gauge: Gauge; key: string }>>();
  for (const map of channels) {
    const gauge = gauges.get(map.gauge);
    const ofChannel = places.get(map.channel) ?? new Map();
    places.set(map.channel, ofChannel);
    if (gauge && !ofChannel.has(map.engine))
      ofChannel.set(map.engine, { map, gauge, key: gaugeKey(map.gauge, map.engine) });
  }
  const limit = type.timing.instrument;
  return (sample, now) => {
    const place = places.get(sample.channel)?.get(sample.engine);
    if (!place) return FAULT.unknownChannel;
    const { map, gauge, key } = place;
    if (sample.unit !== map.unit || map.unit !== gauge.unit) return FAULT.wrongUnit;
    const band = gaugeBand(gauge, { value: sample.value, unit: gauge.unit });
    if (!band.ok) return FAULT.outOfScale;
    if (!limit) return FAULT.noLimit;
    if (sample.time > now + AHEAD_MS) return FAULT.ahead;
    if (now - sample.time >= limit.value * 1000) return FAULT.stale;
    return { ok: true, map, key, band: band.value };
  };
}
