import { type Engine, plain } from "../engine/life.ts";
import { oilLost } from "../engine/oilLost.ts";
import { ruleShort } from "../models/warmUp/short.ts";
import type { SessionState } from "../session/state.ts";
import type { IdleStep } from "../types/schema.ts";
import { gateRules, warmUpSeries } from "./gates.ts";

/** A step of the idle and its place in the type's list. */
export interface IdleAt {
  step: IdleStep;
  index: number;
}

/** Returns the last step whose figures were all read, and the step after it; null where the type gives no steps. */
export function idleReached(
  { type }: SessionState,
  engine: Engine,
): { may: IdleAt; next: IdleStep | null } | null {
  const steps = type.idle ?? [];
  const short = steps.findIndex((s, i) => i > 0 && !reached(engine, s));
  const index = (short < 0 ? steps.length : short) - 1;
  const step = steps[index];
  return step ? { may: { step, index }, next: steps[index + 1] ?? null } : null;
}

function reached(engine: Engine, { from }: IdleStep): boolean {
  const gates = from ? [from] : [];
  const [rule] = gateRules(gates);
  if (!rule) return true;
  const short = ruleShort(rule, warmUpSeries(engine, gates, 0));
  return short.ok && short.value.met;
}

/**
 * Returns the faster idle that an engine may be set to now and was not yet said to be set to; null for none. Only a
 * stable engine with its oil pressure is set faster, and none in a return.
 */
export function fasterIdle(state: SessionState, engine: Engine): IdleAt | null {
  if (state.returning || plain(engine.life).is !== "stable" || oilLost(state, engine)) return null;
  const may = idleReached(state, engine)?.may;
  return may && may.index > (engine.idleStep ?? 0) ? may : null;
}
