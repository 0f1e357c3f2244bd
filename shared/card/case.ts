import { failedSinceRun } from "../engine/attempts.ts";
import { type Engine, isTurning, plain } from "../engine/life.ts";
import { inUnit } from "../models/units.ts";
import type { CardCase } from "../protocol/cardMoments.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import { answerAt, type CardPlace } from "./places.ts";

/**
 * Returns how an engine is to be started now, or how it was cleared or is cranked: after a failed attempt of this
 * session it may be flooded; it is hot while it stood no longer than the type's prime says.
 */
function caseOf(state: SessionState, engine: Engine, now: number): CardCase {
  if (failedSinceRun(engine)) return "flooded";
  const within = state.type.prime?.hot?.within;
  if (within === undefined || engine.lastRanAt === null) return "usual";
  return beginsAt(engine, now) - engine.lastRanAt <= inUnit(within, "s") * 1000 ? "hot" : "usual";
}

/** Returns when the start begins. A clearance stands on the moment at which it was given, so that time alone ends none. */
function beginsAt({ life, starter }: Engine, now: number): number {
  const is = plain(life);
  if (is.is === "clear") return is.since;
  return is.is === "cranking" ? (starter.at(-1)?.on ?? now) : now;
}

/**
 * Returns whether an item is called for: it has no case, or its engine is to be started in that case. Once the engine
 * has caught, the case of its start is past, and what was answered shows it.
 */
export function isCalledFor(state: SessionState, place: CardPlace, now: number): boolean {
  const { item, engine } = place;
  if (item.when === undefined) return true;
  const found = engine === null ? undefined : engineOf(state, engine);
  if (found === undefined) return false;
  const runs = isTurning(found.life) && plain(found.life).is !== "cranking";
  return runs ? answerAt(state, place) !== null : caseOf(state, found, now) === item.when;
}
