import { isForeign } from "../aircraft/foreign.ts";
import type { Moment } from "../paper/moments.ts";
import type { SessionState } from "../session/state.ts";
import type { StartAlert, StartStop } from "./row.ts";

const STOPS = ["hold", "cut", "fire"] as const;

/** Returns the holds, cuts and fires that this moment raised in the session itself. */
export function stopsRaised({ event, before, after }: Moment): StartStop[] {
  return STOPS.flatMap((is) => {
    const known = new Set((before?.[`${is}s`] ?? []).map(({ id }) => id));
    return stopsOf(after, is)
      .filter(({ id }) => !known.has(id) && !isForeign(id))
      .map(({ by, reason }) => ({ is, at: event.at, by, reason }));
  });
}

function stopsOf(state: SessionState, is: (typeof STOPS)[number]) {
  const { holds } = state;
  if (is === "hold") return holds.map(({ id, by, note }) => ({ id, by: by.name, reason: note }));
  const others = is === "cut" ? state.cuts : state.fires;
  return others.map(({ id, by }) => ({ id, by: by.name, reason: null }));
}

/** Returns the alert that this moment raised, or null. One that is suppressed by design called nobody. */
export function alertRaised({ event }: Moment): StartAlert | null {
  const { fact, at } = event;
  if (fact.type !== "alertRaised" || fact.suppressedBy !== undefined) return null;
  return { kind: fact.kind, engine: fact.engine ?? null, at };
}
