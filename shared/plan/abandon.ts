import { clearanceEnd } from "../engine/clearance.ts";
import { isTurning } from "../engine/life.ts";
import { leavesOut } from "../leaves/out.ts";
import type { Fact } from "../protocol/events.ts";
import { isAnother } from "../session/another.ts";
import type { AbandonAsked, SessionState } from "../session/state.ts";
import { accept, type Context, refuse, type Verdict } from "../session/verdict.ts";

/**
 * Decides if a session is abandoned. With hands at a propeller, a leave that is out, or another person's stop, it takes
 * cockpit and supervisor, two people on two devices, within the type's time for an override. All of it stays in the
 * aircraft's record.
 */
export function decideAbandon(state: SessionState, reason: string, context: Context): Verdict {
  const turning = isAwaited(state) ? undefined : state.engines.find((e) => isTurning(e.life));
  if (turning) return refuse("wrongEngineState", { engine: turning.n, found: turning.life.is });
  if (state.fires.length > 0) return refuse("stopOpen");
  const abandoned = accept(...clearancesEnd(state), { type: "stageReached", stage: "abandoned", reason });
  if (!dependedOn(state, context.person.id)) return abandoned;
  const asked = abandonAsked(state, context.now);
  if (!asked) return accept({ type: "abandonAsked", reason });
  if (!isAnother(context.person, asked)) {
    return refuse("secondPersonNeeded", { found: asked.name, posts: ["cockpit", "supervisor"] });
  }
  return abandoned;
}

/** The end of a session is its last event, so that a clearance must end before it. */
function clearancesEnd({ engines }: SessionState): Fact[] {
  return engines.flatMap(({ n, life }) =>
    life.is === "clear" ? [clearanceEnd(n, life.clearance.id, "stageLeft")] : [],
  );
}

/** Returns true for a return whose aircraft does not stand here yet: its engines stay in the aircraft's record. */
function isAwaited({ stage, returning }: SessionState): boolean {
  return stage === "arrival" && returning?.onStand === null;
}

/** Returns true while somebody other than this person depends on what the session holds. */
function dependedOn(state: SessionState, person: string): boolean {
  const stops = [...state.holds, ...state.cuts];
  return (
    state.handling !== null ||
    (state.standing?.hands ?? []).length > 0 ||
    leavesOut(state).length > 0 ||
    stops.some((stop) => stop.person !== person)
  );
}

/** Returns the request to abandon that waits for its second person; null once its epoch or its time is over. */
export function abandonAsked(state: SessionState, now: number): AbandonAsked | null {
  const { abandon } = state;
  return abandon && abandon.epoch === state.epoch && now < abandonUntil(state, abandon) ? abandon : null;
}

/** Returns when the request ends, server milliseconds. */
export function abandonUntil(state: SessionState, { at }: AbandonAsked): number {
  return at + state.type.timing.override.value * 1000;
}
