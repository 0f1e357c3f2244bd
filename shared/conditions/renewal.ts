import { type Engine, plain } from "../engine/life.ts";
import { lifeAt } from "../engine/lifeAt.ts";
import { overriddenBy } from "../overrides/overridden.ts";
import type { ConditionId } from "../protocol/conditions.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import { applies, DEFINITIONS } from "./all.ts";
import type { ConditionDefinition } from "./definition.ts";
import { freshSeconds } from "./finding.ts";

/**
 * A report is asked for again only in this last share of its fresh time, however long a clearance lives: in a type
 * whose reports grow old sooner than its clearances, they would be asked for without end. It applies to types that give
 * no share. Common practice, no source.
 */
export const RENEWED_IN = 0.5;

/**
 * Returns whether the condition is met now by a report that would grow old within the life of the clearance: the one
 * that is asked for, or the one that stands.
 */
export function needsRenewal(
  state: SessionState,
  condition: ConditionDefinition,
  engine: number,
  now: number,
): boolean {
  const asked = engineOf(state, engine);
  const fresh = freshSeconds(state, condition);
  if (!asked || fresh === null || !applies(state.type, condition, "clearance")) return false;
  const ends = clearanceEnds(state, asked, now);
  const finding = condition.find(state, engine, now);
  const { is, until } = finding;
  if (ends === null || is !== "yes" || until === null) return false;
  if (overriddenBy(state, condition.id, engine, { ...finding, is: "stale" }, until)) return false;
  return until < Math.min(ends, now + fresh * 1000 * (state.type.renewedIn?.value ?? RENEWED_IN));
}

/** Returns the conditions whose reports are asked for again before this engine is cleared. */
export function renewals(state: SessionState, engine: number, now: number): ConditionId[] {
  return DEFINITIONS.filter((c) => needsRenewal(state, c, engine, now)).map((c) => c.id);
}

/**
 * Returns since when a requested or cleared engine waits for a report of this condition, because there is none or it
 * would grow old too soon; null when none waits.
 */
export function waitedFor(state: SessionState, condition: ConditionDefinition, now: number): number | null {
  if (!applies(state.type, condition, "clearance")) return null;
  for (const engine of state.engines) {
    const life = plain(lifeAt(engine.life, now));
    if (life.is !== "requested" && life.is !== "clear") continue;
    const missing = condition.find(state, engine.n, now).is !== "yes";
    if (missing || needsRenewal(state, condition, engine.n, now)) return life.since;
  }
  return null;
}

/** Returns when the engine's clearance ends, or would end if it was given now; null when none is asked for. */
function clearanceEnds(state: SessionState, engine: Engine, now: number): number | null {
  const life = plain(lifeAt(engine.life, now));
  if (life.is === "clear") return life.clearance.expiresAt;
  return life.is === "requested" ? now + state.type.timing.clearance.value * 1000 : null;
}
