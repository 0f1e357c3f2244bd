import { type Engine, isTurning, type PlainLife, plain } from "../engine/life.ts";
import { lifeAt } from "../engine/lifeAt.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import { type EscapeWay, escapeWay } from "./escape.ts";
import { turningOnTheWay } from "./way.ts";

/** The facts for a guard of whom nothing is asked: the engine, the way out, and the next place. */
export interface StandBy {
  /** The engine at which the guard stands. */
  at: number;
  /** `stay`: a start of this engine comes or is under way. `leave`: it needs no guard now. */
  duty: "stay" | "leave";
  out: EscapeWay;
  /** The engine that needs the guard next; null when none of the order is left, or when it is this one. */
  next: number | null;
  /** An engine that turns on the straight way to the next one; null when the way is free. */
  around: number | null;
}

/** Whether an engine in this state needs its guard to stay. */
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
  const upcoming = nextEngine(state, now);
  const next = upcoming === at ? null : upcoming;
  const stays = here.life.is === "fire" || NEEDED[lifeNow(here, now)] || upcoming === at;
  return {
    at,
    duty: stays ? "stay" : "leave",
    out: escapeWay(state.type, at, turning),
    next,
    around: next === null ? null : (turningOnTheWay(state, at, next) ?? null),
  };
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
