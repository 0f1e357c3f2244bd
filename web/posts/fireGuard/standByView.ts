import { plain } from "../../../shared/engine/life.ts";
import { type StandBy, standBy } from "../../../shared/guard/standBy.ts";
import type { Facing } from "../../../shared/models/facing.ts";
import { receptacleWay } from "../../../shared/paper/escape.ts";
import { engineOf, purposeOf, type SessionState } from "../../../shared/session/state.ts";
import { briefWords } from "../../../shared/words/brief.ts";
import { seconds } from "../../ui/numbers.ts";
import type { EngineMark } from "../../ui/plan/planView.ts";
import type { Words } from "../../words/catalogue.ts";
import { standByWords } from "../../words/standBy.ts";
import { planView } from "../shared/marks.ts";

/** The standing-by screen of the fire guard, words included. */
export interface StandByView {
  n: number;
  mark: EngineMark;
  /** Time for which the engine has done what it does; null for one that only waits. */
  time: string | null;
  duty: string;
  mayLeave: boolean;
  out: {
    words: string;
    /** Degrees clockwise from up, in the drawing as this person sees it. */
    turn: number;
  };
  next: string;
  /** The safe ways to the chocks and the cart, once no engine waits for this guard. */
  ways: readonly { to: string; words: string }[];
}

/** Returns what the guard sees while nothing is asked; null while no place of the guard is known. */
export function standByView(
  state: SessionState,
  now: number,
  facing: Facing,
  words: Words,
): StandByView | null {
  const found = standBy(state, now);
  const mark = planView(state, null, now, words).engines.find((e) => e.n === found?.at);
  const life = found && engineOf(state, found.at)?.life;
  if (!found || !mark || !life) return null;
  const says = standByWords(words.say.language);
  const under = plain(life);
  return {
    n: found.at,
    mark,
    time: under.is === "waiting" ? null : says.for(seconds(now - under.since)),
    duty: dutyWords(found, state, words),
    mayLeave: found.duty === "leave",
    out: { words: outWords(found, words), turn: turnOf(found, facing) },
    next: nextWords(found, state, words),
    ways: found.duty === "leave" && found.next === null ? waysOf(state, words) : [],
  };
}

function outWords({ out }: StandBy, { say }: Words): string {
  const says = standByWords(say.language);
  if (out.way === "ahead") return says.ahead(say.both(out.closedBy.map(String)));
  return says.outboard[out.side === "starboard" ? "starboard" : "port"];
}

/** Returns the arrow's direction: the nose is up in a drawing that faces forward, down for a person before the nose. */
function turnOf({ out }: StandBy, facing: Facing): number {
  const forward = out.way === "ahead" ? 0 : out.side === "starboard" ? 90 : 270;
  return facing === "forward" ? forward : (forward + 180) % 360;
}

function dutyWords({ at, duty }: StandBy, state: SessionState, { say }: Words): string {
  const says = standByWords(say.language);
  if (duty === "leave") return says.leave(at);
  return purposeOf(state) === "return" ? says.watch(at) : says.stay(at);
}

function nextWords({ duty, next, around }: StandBy, state: SessionState, { say }: Words): string {
  const says = standByWords(say.language);
  const returns = purposeOf(state) === "return";
  if (next === null) {
    if (duty === "stay") return "";
    return returns ? says.allStill : says.noNext;
  }
  if (around !== null) return says.goAround(next, around);
  return returns ? says.watchNext(next) : says.goTo(next);
}

function waysOf({ type }: SessionState, { say }: Words): StandByView["ways"] {
  const says = standByWords(say.language);
  const brief = briefWords(say.language);
  return [
    { to: says.toWheels, words: brief.wayToWheels },
    { to: says.toCart, words: receptacleWay(type) === "ahead" ? brief.receptacleAhead : brief.receptacleAft },
  ];
}
