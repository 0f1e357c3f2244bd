import type { Send } from "../protocol/commands.ts";
import type { FactOf, SessionEvent } from "../protocol/events.ts";
import { POSTS } from "../protocol/posts.ts";
import { FROM_SECURE } from "../protocol/stages.ts";
import { attributionOf } from "../session/attribute.ts";
import type { Attribution } from "../session/attribution.ts";
import type { SessionState } from "../session/state.ts";
import { accept, refuse, type Verdict } from "../session/verdict.ts";
import { ANNEX } from "../signals/definition.ts";
import { lowering, signal } from "../signals/kinds.ts";
import { arcsNotClear } from "./arcs.ts";
import { turningOnTheWay } from "./way.ts";

const seenBySome = ["cockpit", "supervisor"] as const;

export const guardInPlace = signal({
  from: ["fireGuard"],
  stages: FROM_SECURE,
  engine: "required",
  witnessable: true,
  decide: (state, send) => seenTooEarly(state, send) ?? accept({ ...send, type: "sent" }),
  evolve: moved,
  menu: { own: ["fireGuard"], seenBy: seenBySome, when: null, tone: "plain" },
});

export const guardAway = lowering({
  from: ["fireGuard"],
  evolve: (state, event) => ({
    ...state,
    guard: null,
    arcs: arcsNotClear(state.arcs),
    guardAwayAt: event.at,
  }),
  menu: { own: ["fireGuard"], seenBy: [], when: null, tone: "plain" },
});

/** A report that the arc is clear counts only from a guard at a place where it can be seen. */
export const arcClear = signal({
  from: ["fireGuard"],
  stages: FROM_SECURE,
  engine: "required",
  witnessable: true,
  standard: { figure: "pathClear", text: `${ANNEX} 5.1 item 1, path unobstructed, used here for the arc` },
  decide(state, send) {
    const early = seenTooEarly(state, send);
    if (early) return early;
    if (state.guard?.engine === send.engine) return accept({ ...send, type: "sent" });
    const where = state.guard ? { found: String(state.guard.engine) } : {};
    return refuse("notAtEngine", { engine: send.engine ?? 0, posts: ["fireGuard"], ...where });
  },
  evolve: (state, event, fact) => arcSeen(state, event, fact, true),
  menu: { own: ["fireGuard"], seenBy: seenBySome, when: null, tone: "plain" },
});

/** Without an engine that the aircraft has, no arc is clear. */
export const arcNotClear = lowering({
  from: ["fireGuard", "groundPower", "supervisor"],
  engine: "required",
  witnessable: true,
  evolve: (state, event, fact) => arcSeen(state, event, fact, false),
  menu: {
    own: ["fireGuard", "groundPower", "supervisor"],
    seenBy: seenBySome,
    when: null,
    tone: "no",
  },
});

/**
 * Refuses a hand signal seen before the guard went away: it says nothing of the present, however late it is
 * recorded.
 */
function seenTooEarly(state: SessionState, { seenFrom, seenAt }: Send): Verdict | null {
  const { guardAwayAt } = state;
  if (seenFrom === undefined || seenAt === undefined || guardAwayAt === undefined) return null;
  return seenAt <= guardAwayAt ? refuse("tooLate") : null;
}

/** Returns who reported it. A hand signal is as old as the moment it was seen. */
function saidWhenSeen(event: SessionEvent, fact: FactOf<"sent">): Attribution {
  const by = attributionOf(event, fact.seenFrom ?? null);
  return fact.seenFrom === undefined || fact.seenAt === undefined
    ? by
    : { ...by, at: Math.min(fact.seenAt, event.at) };
}
/** People where a propeller turns or may turn: no arc is clear, or not that of the engine they are at. */
export const peopleAtAircraft = lowering({
  from: POSTS,
  engine: "optional",
  tone: "danger",
  witnessable: true,
  evolve: (state, event, fact) => ({ ...arcSeen(state, event, fact, false), allClearAt: null }),
  menu: { own: POSTS, seenBy: [], when: null, tone: "no" },
});

function arcSeen(
  state: SessionState,
  event: SessionEvent,
  fact: FactOf<"sent">,
  clear: boolean,
): SessionState {
  const seen = {
    ...(clear ? saidWhenSeen(event, fact) : attributionOf(event, fact.seenFrom ?? null)),
    clear,
  };
  const engines = fact.engine === undefined ? state.engines.map((e) => e.n) : [fact.engine];
  return { ...state, arcs: { ...state.arcs, ...Object.fromEntries(engines.map((n) => [n, seen])) } };
}

/**
 * Returns the state after the guard moved: the guard has not yet looked along the new arc, and the straight way may
 * lead through a turning one.
 */
function moved(state: SessionState, event: SessionEvent, fact: FactOf<"sent">): SessionState {
  const by = saidWhenSeen(event, fact);
  const engine = fact.engine ?? 0;
  const around = fact.walkedAround === true;
  const before = state.guard;
  if (before?.engine === engine)
    return { ...state, guard: { ...by, engine, crossed: around ? null : before.crossed } };
  const crossed = around ? undefined : turningOnTheWay(state, before?.engine ?? null, engine);
  return { ...state, guard: { ...by, engine, crossed: crossed ?? null }, arcs: arcsNotClear(state.arcs) };
}
