import { grant, spendClearance } from "../engine/clearance.ts";
import { abandonStart, caught, crank, shutDown, withEngine, withLife } from "../engine/evolve.ts";
import { turningOnTheWay } from "../guard/way.ts";
import { evolveService } from "../leaves/evolve.ts";
import type { FactOf, SessionEvent } from "../protocol/events.ts";
import { said } from "../session/attribute.ts";
import type { Attribution } from "../session/attribution.ts";
import type { SessionState } from "../session/state.ts";
import { evolveStop } from "../stops/evolve.ts";
import { CATALOGUE } from "./catalogue.ts";
import { closeKinds, closeSignal, openSignal } from "./evolve.ts";

/** A signal was sent: it opens, and its meaning takes effect. */
export function evolveSent(before: SessionState, event: SessionEvent, fact: FactOf<"sent">): SessionState {
  const state = openSignal(before, event, fact);
  const now = event.at;
  const n = fact.engine ?? 0;
  const by = said(event, fact.seenFrom ?? null);
  if (CATALOGUE[fact.kind].stop) return evolveStop(state, event, fact);
  switch (fact.kind) {
    case "release":
      return closeSignal(
        { ...state, holds: state.holds.filter((h) => h.id !== fact.ref) },
        fact.ref ?? 0,
        "done",
      );
    case "resetCut":
      return closeSignal(
        { ...state, cuts: state.cuts.filter((c) => c.id !== fact.ref) },
        fact.ref ?? 0,
        "done",
      );
    case "fireOut":
      return evolveStop(state, event, fact);
    case "readyToStart":
      return withEngine(state, n, (e) => withLife(e, { is: "requested", since: now, signal: event.seq }));
    case "clearToStart":
      return grant(state, event, fact);
    case "cranking": {
      const life = state.engines[n - 1]?.life;
      const cleared = life?.is === "clear";
      const expected = fact.expectedVolts;
      return crank(cleared ? spendClearance(state, life.clearance.id) : state, n, now, { cleared, expected });
    }
    case "caught":
      return caught(state, n, now);
    case "started":
      return withEngine(state, n, (e) => withLife(e, { is: "stable", since: now }));
    case "startAbandoned":
      return abandonStart(closeKinds(state, ["readyToStart", "clearToStart"], "superseded", n), n, now);
    case "shutDown":
      return shutDown(state, n, now, fact.note ?? "reported");
    case "guardInPlace": {
      return guardMoved(state, by, n, fact.walkedAround === true);
    }
    case "guardAway":
      return { ...state, guard: null, arcs: {} };
    case "arcClear":
    case "arcNotClear":
      return { ...state, arcs: { ...state.arcs, [n]: { ...by, clear: fact.kind === "arcClear" } } };
    default:
      return evolveService(state, event, fact);
  }
}

/** A guard who moved has not yet looked along the new arc; the straight way may lead through a turning one. */
function guardMoved(state: SessionState, by: Attribution, n: number, around: boolean): SessionState {
  const before = state.guard;
  if (before?.engine === n)
    return { ...state, guard: { ...by, engine: n, crossed: around ? null : before.crossed } };
  const crossed = around ? undefined : turningOnTheWay(state, before?.engine ?? null, n);
  return { ...state, guard: { ...by, engine: n, crossed: crossed ?? null }, arcs: {} };
}
