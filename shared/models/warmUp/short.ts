import type { Quantity } from "../../protocol/quantity.ts";
import { found, type Outcome } from "../outcome.ts";
import { atLeast, convert } from "../units.ts";

/** The figure that one gauge must reach before more power: a value, or a rise since the engine's first reading. */
export type GateRule = { gauge: string; atLeast: Quantity } | { gauge: string; riseOf: Quantity };

/** Temperatures one engine's gauge showed, in order of time. */
export interface GaugeSeries {
  gauge: string;
  readings: readonly { seconds: number; temperature: Quantity }[];
}

export interface EngineSeries {
  n: number;
  series: readonly GaugeSeries[];
}

/**
 * Returns whether the last reading meets one rule, and the value that the rule needs in the readings' converted unit.
 */
export function ruleShort(rule: GateRule, engine: EngineSeries): Outcome<RuleShort> {
  const { unit } = "atLeast" in rule ? rule.atLeast : rule.riseOf;
  const series = [];
  for (const r of engine.series.find((s) => s.gauge === rule.gauge)?.readings ?? []) {
    const read = convert(r.temperature, unit);
    if (!read.ok) return read;
    series.push({ seconds: r.seconds, temperature: read.value.value });
  }
  const first = series[0];
  const last = series.at(-1);
  if (!first || !last) return found({ met: false, value: null, shortfall: Number.POSITIVE_INFINITY, series });
  const value = "atLeast" in rule ? rule.atLeast.value : first.temperature + rule.riseOf.value;
  const met = atLeast({ value: last.temperature, unit }, { value, unit });
  if (!met.ok) return met;
  const kelvins = met.value ? 0 : (value - last.temperature) * (unit === "degF" ? 5 / 9 : 1);
  return found({ met: met.value, value, shortfall: kelvins, series });
}

interface RuleShort {
  met: boolean;
  /** The value that the gauge must reach; null until the gauge is read. */
  value: number | null;
  shortfall: number;
  series: { seconds: number; temperature: number }[];
}

/**
 * Returns the gauges of one engine that are still short, without the time left: this is cheap enough for every redraw.
 */
export function gaugesShort(rules: readonly GateRule[], engine: EngineSeries): Outcome<string[]> {
  const short: string[] = [];
  for (const rule of rules) {
    const one = ruleShort(rule, engine);
    if (!one.ok) return one;
    if (!one.value.met) short.push(rule.gauge);
  }
  return found(short);
}
