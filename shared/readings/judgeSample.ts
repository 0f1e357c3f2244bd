import type { ChannelMap } from "../house/channels.ts";
import { type Band, gaugeBand } from "../models/gaugeBand.ts";
import type { AircraftType } from "../types/schema.ts";

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

export type JudgedSample = { ok: true; map: ChannelMap; band: Band } | { ok: false; fault: SampleFault };

/**
 * Judges a sample as a person's reading is judged: the right channel and unit, on the instrument's scale, and in addition
 * younger than the type's limit. A type without that limit takes none.
 */
export function judgeSample(
  sample: Sample,
  channels: readonly ChannelMap[],
  type: AircraftType,
  now: number,
): JudgedSample {
  const no = (fault: SampleFault): JudgedSample => ({ ok: false, fault });
  const map = channels.find((c) => c.channel === sample.channel && c.engine === sample.engine);
  const gauge = map && type.gauges.find((g) => g.id === map.gauge);
  if (!map || !gauge) return no("unknownChannel");
  if (sample.unit !== map.unit || map.unit !== gauge.unit) return no("wrongUnit");
  const band = gaugeBand(gauge, { value: sample.value, unit: gauge.unit });
  if (!band.ok) return no("outOfScale");
  const limit = type.timing.instrument;
  if (!limit) return no("noLimit");
  if (sample.time > now + AHEAD_MS) return no("ahead");
  if (now - sample.time >= limit.value * 1000) return no("stale");
  return { ok: true, map, band: band.value };
}
