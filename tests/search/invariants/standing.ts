import { isOver, type SessionState } from "../../../shared/session/state.ts";
import type { Move, Taken } from "../aircraft/move.ts";
import type { Ramp } from "../aircraft/ramp.ts";
import { lifeOf } from "./invariant.ts";

/** Ids in a session of what came from the record begin here. */
const FOREIGN = 1_000_000_000;
const TURNING = new Set(["cranking", "caught", "running", "stable"]);

/** A step at the aircraft: before it, the move, and after it. */
export interface RampStep {
  before: Ramp;
  move: Move;
  after: Taken;
}

export interface RampInvariant {
  id: string;
  text: string;
  holds(step: RampStep): boolean;
}

const stopsOf = (s: SessionState) => [...s.holds, ...s.cuts, ...s.fires];
const own = (id: number) => id < FOREIGN;
const openOf = (ramp: Ramp) => ramp.sessions.filter((s) => !isOver(s));
const cleared = (s: SessionState) => s.engines.some((e) => lifeOf(e).is === "clear");

/** The number of stops that each session raised and still has, and the number that came from elsewhere. */
const ownStops = (s: SessionState) => stopsOf(s).filter((x) => own(x.id)).length;
const foreignStops = (s: SessionState) => stopsOf(s).filter((x) => !own(x.id)).length;

/** Stops that sessions had when they ended and that nobody has ended since, by the search's own count. */
function leftBehind(ramp: Ramp): number {
  const over = new Set(ramp.sessions.filter(isOver).map((s) => s.id));
  return ramp.record.items.filter(
    (i) => ["hold", "cut", "fire"].includes(i.item.is) && (i.session === null || over.has(i.session)),
  ).length;
}

/** Engines that turn in a session's own record, or stopped there and were not seen still; also when it has ended. */
export function leftIn(s: SessionState): number[] {
  return s.engines.filter((e) => TURNING.has(lifeOf(e).is) || e.unseen !== undefined).map((e) => e.n);
}

/** Returns true if another session has an engine turning, or left one that nobody has seen still since. */
function leftElsewhere({ sessions, seenStill }: Ramp, s: SessionState): boolean {
  return sessions.some((o) => o.id !== s.id && leftIn(o).some((n) => !seenStill.includes(`${o.id}:${n}`)));
}

/** The session in which somebody acted, before and after. */
function acting({ before, move, after }: RampStep): [SessionState, SessionState] | null {
  if (move.is !== "act") return null;
  const was = before.sessions[move.session];
  const is = after.step?.state;
  return was && is ? [was, is] : null;
}

export const STANDING: readonly RampInvariant[] = [
  {
    id: "STN-1",
    text: "a stop that stood when its session ended, or was given without one, stands in every open session",
    holds: ({ before, move, after: { ramp } }) => {
      if (ramp.pending.length > 0) return true;
      const ended = before.sessions.filter(
        (s, i) => !isOver(s) && ramp.sessions[i] && isOver(ramp.sessions[i]),
      );
      for (const was of ended) {
        const there = ramp.sessions.find((s) => s.id === was.id);
        const kept = ramp.record.items.filter((i) => i.session === was.id && i.item.is !== "turning").length;
        if (there && ownStops(there) > kept) return false;
      }
      if (move.is === "plan") {
        const made = ramp.sessions.at(-1);
        const others = openOf(ramp).filter((s) => s.id !== made?.id);
        const stands = leftBehind(ramp) + others.reduce((n, s) => n + ownStops(s), 0);
        return made === undefined || foreignStops(made) === stands;
      }
      const office = move.is === "office" && move.action.type === "stop";
      return !office || openOf(ramp).every((s) => foreignStops(s) > 0 && !cleared(s));
    },
  },
  {
    id: "STN-2",
    text: "open sessions have the same stops, and no session has a clearance while a stop stands in another",
    holds: ({ after: { ramp } }) => {
      if (ramp.pending.length > 0) return true;
      const open = openOf(ramp);
      const sizes = new Set(open.map((s) => stopsOf(s).length));
      const stands = open.some((s) => stopsOf(s).length > 0);
      return sizes.size <= 1 && !(stands && open.some(cleared));
    },
  },
  {
    id: "STN-6",
    text: "with hands on a propeller in one session, no other clears an engine or sends hands to a propeller",
    holds: (step) => {
      const { ramp } = step.after;
      if (ramp.pending.length > 0) return true;
      const hands = openOf(ramp).filter((s) => s.handling !== null);
      if (hands.length > 1) return false;
      const acts = acting(step);
      if (!acts) return true;
      const [was, is] = acts;
      const elsewhere = step.before.sessions.some(
        (s) => s.id !== was.id && s.handling !== null && !freed(step.before, s),
      );
      return (
        !elsewhere || ((is.handling === null || was.handling !== null) && !(cleared(is) && !cleared(was)))
      );
    },
  },
  {
    id: "STN-7",
    text: "with a propeller turning in another session, or not seen still since, no engine is cleared and no hands go to a propeller",
    holds: (step) => {
      const acts = acting(step);
      if (!acts || step.before.pending.length > 0) return true;
      const [was, is] = acts;
      const grew = (cleared(is) && !cleared(was)) || (is.handling !== null && was.handling === null);
      if (!grew) return true;
      return !leftElsewhere(step.before, was);
    },
  },
  {
    id: "STN-10",
    text: "what a session has ended itself does not come back in it",
    holds: ({ before, after: { ramp } }) =>
      ramp.sessions.every((is, i) => {
        const was = before.sessions[i];
        if (!was) return true;
        const over = endedBy(was);
        return !stopsOf(is).some((x) => !own(x.id) && over.includes(x.id - FOREIGN));
      }),
  },
];

/** Hands of a session that another one, or the office, has reported off. */
function freed(ramp: Ramp, s: SessionState): boolean {
  return !ramp.record.items.some((i) => i.session === s.id && i.item.is === "hands");
}

/** Numbers of told stops that the session no longer has. */
function endedBy(s: SessionState): number[] {
  const there = stopsOf(s).map((x) => x.id - FOREIGN);
  const told = (s.standing?.told ?? []).filter((i) => ["hold", "cut", "fire"].includes(i.item.is));
  return told.map((i) => i.no).filter((no) => !there.includes(no));
}
