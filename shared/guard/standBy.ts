import { type Engine, isTurning, type PlainLife, plain } from "../engine/life.ts";
import { lifeAt } from "../engine/lifeAt.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import { nextToStop } from "../stopping/nextToStop.ts";
import { type EscapeWay, escapeWay } from "./escape.ts";
import { turningOnTheWay } from "./way.ts";

/** The facts for a guard of whom nothing is asked: the engine, the way out, and the next place. */
export interface StandBy {
  /** The engine at which the guard stands. */
  at: number;
  /**
   * `stay`: a start of this engine comes or is under way; in a return, it is stopped next or its propeller was not seen
   * still. `leave`: it needs no guard now.
   */
  duty: "stay" | "leave";
  out: EscapeWay;
  /** The engine that needs the guard next; null when none of the order is left, or when it is this one. */
  next: number | null;
  /** An engine that turns on the straight way to the next one; null when the way is free. */
  around: number | null;
}

/** True for each state in which an engine of a start needs its guard to stay. */
const NEEDED: Readonly<Record<PlainLife["is"], boolean>> = {
  waiting: false,
  requested: true,
  clear: true,
  cranking: true,
  caught: true,
  running: true,
  stable: false,
  shutDown: false,
  cooling: false,
};

const UPCOMING: readonly PlainLife["is"][] = ["requested", "clear", "waiting"];

/** Returns what the guard has to know while standing by; null while no place of the guard is known. */
export function standBy(state: SessionState, now: number): StandBy | null {
  const at = state.guard?.engine;
  const here = at === undefined ? undefined : engineOf(state, at);
  if (at === undefined || here === undefined) return null;
  const turning = state.engines.filter((e) => isTurning(e.life)).map((e) => e.n);
  const upcoming = state.returning ? nextToWatch(state) : nextEngine(state, now);
  const next = upcoming === at ? null : upcoming;
  const busy = state.returning ? here.unseen !== undefined : NEEDED[lifeNow(here, now)];
  const stays = here.life.is === "fire" || busy || upcoming === at;
  return {
    at,
    duty: stays ? "stay" : "leave",
    out: escapeWay(state.type, at, turning),
    next,
    around: next === null ? null : (turningOnTheWay(state, at, next) ?? null),
  };
}

/**
 * Returns the engine whose propeller is to be watched in a return: one that was just stopped, else the next to be
 * stopped, else one that came in stopped; null when each was seen still.
 */
function nextToWatch(state: SessionState): number | null {
  const unseen = state.engines.filter((e) => e.unseen !== undefined);
  const stopped = unseen.find((e) => e.unseen?.stoppedBy);
  return (stopped ?? nextToStop(state) ?? unseen[0])?.n ?? null;
}

/** Returns the engine asked for or cleared, else the first of the order that waits; null when there is none. */
function nextEngine(state: SessionState, now: number): number | null {
  const inOrder = state.order.flatMap((n) => engineOf(state, n) ?? []);
  for (const is of UPCOMING) {
    const found = inOrder.find((e) => e.life.is !== "fire" && lifeNow(e, now) === is);
    if (found) return found.n;
  }
  return null;
}

const lifeNow = (engine: Engine, now: number): PlainLife["is"] => plain(lifeAt(engine.life, now)).is;
