import type { Fact, FactOf } from "../protocol/events.ts";
import type { Fire, SessionState } from "../session/state.ts";

/**
 * Returns the server milliseconds at which the first person's report that a fire is out lapses; null where the type
 * sets no limit.
 */
function lapsesAt(state: SessionState, { outBy }: Fire): number | null {
  const limit = state.type.timing.fireOut;
  return outBy === null || limit === undefined ? null : outBy.at + limit.value * 1000;
}

/** Returns the reports of a fire out that nobody confirmed within the type's time. */
export function fireOutLapses(state: SessionState, now: number): Fact[] {
  return state.fires.flatMap((f): Fact[] => {
    const at = lapsesAt(state, f);
    return at !== null && now >= at ? [{ type: "fireOutLapsed", fire: f.id }] : [];
  });
}

/** Returns the moments of those lapses. */
export function fireOutMoments(state: SessionState): number[] {
  return state.fires.flatMap((f) => lapsesAt(state, f) ?? []);
}

/** Returns the state without the first report of a fire out: two people must report it again. */
export function evolveFireOutLapsed(state: SessionState, fact: FactOf<"fireOutLapsed">): SessionState {
  const fires = state.fires.map((f) => (f.id === fact.fire ? { ...f, outBy: null } : f));
  return { ...state, fires };
}
