import { found, type Outcome, refused } from "../outcome.ts";
import { fitWarmUp } from "./fit.ts";
import { type TimeLeft, timeLeft } from "./predict.ts";
import { type EngineSeries, type GateRule, ruleShort } from "./short.ts";

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

function ruleGate(rule: GateRule, engine: EngineSeries): Outcome<RuleGate> {
  const one = ruleShort(rule, engine);
  if (!one.ok) return one;
  const { met, value, shortfall, series } = one.value;
  if (met || value === null) return found({ met, left: null, shortfall });
  const fit = fitWarmUp(series);
  if (!fit.ok) return fit;
  return found({ met, left: fit.value ? timeLeft(fit.value, value) : null, shortfall });
}
