import type { Quantity } from "../../protocol/quantity.ts";
import { found, type Outcome, refused } from "../outcome.ts";
import { atLeast, convert } from "../units.ts";
import { fitWarmUp } from "./fit.ts";
import { type TimeLeft, timeLeft } from "./predict.ts";

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

export interface EngineGate {
  n: number;
  open: boolean;
  /** Gauges still short. */
  short: string[];
  /** Time left from the last reading; null when open or when the data do not determine it. */
  left: TimeLeft | null;
  /** Largest shortfall, kelvins; 0 when open, Infinity for a gauge never read. */
  shortfall: number;
}

export interface WarmUpGate {
  /** True only when every gauge of every engine has reached its figure. */
  open: boolean;
  /** The engine that the gate waits for; null when open. */
  decidedBy: number | null;
  left: TimeLeft | null;
  engines: EngineGate[];
}

/**
 * Returns the warm-up gate over all running engines. The engine furthest from the gate decides: the one with the
 * longest time left. An engine whose time is unknown comes before any whose time is known; among equals the coldest
 * comes first. Every limit is compared in its own unit. A gauge that was never read keeps the gate closed.
 */
export function warmUpGate(
  rules: readonly GateRule[],
  engines: readonly EngineSeries[],
): Outcome<WarmUpGate> {
  if (rules.length === 0) return refused("a warm-up gate has at least one rule");
  if (engines.length === 0) return refused("a warm-up gate is judged over at least one engine");
  const judged: EngineGate[] = [];
  for (const engine of engines) {
    const one = engineGate(rules, engine);
    if (!one.ok) return one;
    judged.push(one.value);
  }
  const waits = (e: EngineGate) => e.left?.seconds ?? Number.POSITIVE_INFINITY;
  const short = judged.filter((e) => !e.open);
  const decider = short.reduce<EngineGate | null>((worst, e) => {
    if (!worst || waits(e) > waits(worst)) return e;
    return waits(e) === waits(worst) && e.shortfall > worst.shortfall ? e : worst;
  }, null);
  return found({
    open: short.length === 0,
    decidedBy: decider?.n ?? null,
    left: decider?.left ?? null,
    engines: judged,
  });
}

function engineGate(rules: readonly GateRule[], engine: EngineSeries): Outcome<EngineGate> {
  const gate: EngineGate = {
    n: engine.n,
    open: true,
    short: [],
    left: { seconds: 0, plusMinus: 0 },
    shortfall: 0,
  };
  for (const rule of rules) {
    const one = ruleGate(rule, engine);
    if (!one.ok) return one;
    if (one.value.met) continue;
    const { left, shortfall } = one.value;
    gate.open = false;
    gate.short.push(rule.gauge);
    gate.shortfall = Math.max(gate.shortfall, shortfall);
    if (!left) gate.left = null;
    else if (gate.left && left.seconds >= gate.left.seconds) gate.left = left;
  }
  return found(gate.open ? { ...gate, left: null } : gate);
}

interface RuleGate {
  met: boolean;
  left: TimeLeft | null;
  shortfall: number;
}

/**
 * Returns whether the last reading meets one rule, and the value that the rule needs in the readings' converted unit.
 */
function ruleShort(rule: GateRule, engine: EngineSeries): Outcome<RuleShort> {
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

function ruleGate(rule: GateRule, engine: EngineSeries): Outcome<RuleGate> {
  const one = ruleShort(rule, engine);
  if (!one.ok) return one;
  const { met, value, shortfall, series } = one.value;
  if (met || value === null) return found({ met, left: null, shortfall });
  const fit = fitWarmUp(series);
  if (!fit.ok) return fit;
  return found({ met, left: fit.value ? timeLeft(fit.value, value) : null, shortfall });
}
