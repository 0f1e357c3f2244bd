import { findAll } from "../conditions/all.ts";
import type { ConditionReport } from "../protocol/conditionReport.ts";
import { LIVE_STAGES, type Stage } from "../protocol/stages.ts";
import type { SessionState } from "../session/state.ts";
import { refuse, type Verdict } from "../session/verdict.ts";
import { type Engine, isTurning, plain } from "./life.ts";

/** Stages from the start on: before it nobody is at a post for an engine that turns. */
const WITH_CREW: readonly Stage[] = LIVE_STAGES.slice(LIVE_STAGES.indexOf("starting"));

/**
 * Returns what prevents cranking a burning engine without a clearance to draw its fire in; null when nothing does. A
 * person at its propeller or in its arc is worse than the fire, and so is a second engine cranked under one guard.
 */
export function fireCrankFault(state: SessionState, engine: Engine, now: number): Verdict | null {
  const life = plain(engine.life);
  if (life.is === "cranking") return refuse("alreadyDone", { engine: engine.n });
  if (isTurning(life)) return refuse("wrongEngineState", { engine: engine.n, found: life.is });
  if (!WITH_CREW.includes(state.stage)) {
    return refuse("wrongStage", { stages: [...WITH_CREW], found: state.stage });
  }
  const unmet = findAll(state, engine.n, now).filter((r) => stands(state, engine, r));
  return unmet.length === 0 ? null : refuse("conditionsUnmet", { engine: engine.n, unmet });
}

function stands(state: SessionState, engine: Engine, { id, is }: ConditionReport): boolean {
  if (is !== "no") return false;
  if (id === "arcClear") return true;
  if (id === "noOtherTurningUp") {
    return state.engines.some((e) => e.n !== engine.n && plain(e.life).is === "cranking");
  }
  if (id !== "handsOffPropellers") return false;
  const left = state.standing?.hands.some((h) => h.engine === engine.n) === true;
  return left || state.handling?.engine === engine.n;
}
