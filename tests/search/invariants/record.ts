import { canonical } from "../../../shared/evidence/canonical.ts";
import { evolve } from "../../../shared/session/evolve.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import { postOf } from "../moves.ts";
import { type Invariant, own } from "./invariant.ts";

const OVER = new Set(["closed", "abandoned"]);
const inRange = (n: number | null | undefined, state: SessionState) =>
  n === null || n === undefined || (Number.isInteger(n) && n >= 1 && n <= state.engines.length);

/** The log is replayed once in this many steps, because a replay costs a hundred times a step. */
const REPLAYED = 512;
let steps = 0;

/** Returns the bytes of a state without its type, which is the same object in every state. */
function bytesOf({ type: _pinned, ...rest }: SessionState): string {
  return canonical(rest);
}

export const RECORD: readonly Invariant[] = [
  {
    id: "I8",
    text: "a signal is answered, done or refused by a person's act alone, never by time or the server",
    holds: ({ before, step, move }) => {
      if (move.is === "act" || step.state.ended === before.ended) return true;
      return before.signals.every((s) => {
        const ended = step.state.ended.find((e) => e.id === s.id);
        return !ended || ended.is === "expired" || ended.is === "revoked" || ended.is === "superseded";
      });
    },
  },
  {
    id: "I11",
    text: "what has ended stays ended: a session that is over, a signal that is closed",
    holds: ({ before, step }) => {
      const after = step.state;
      if (OVER.has(before.stage) && (after !== before || step.events.length > 0)) return false;
      for (const event of step.events) {
        if (event.fact.type !== "answered") continue;
        const { signal } = event.fact;
        if (!before.signals.some((s) => s.id === signal)) return false;
      }
      if (after.ended === before.ended) return true;
      return before.ended.every((old) => {
        if (after.signals.some((s) => s.id === old.id)) return false;
        const is = after.ended.find((s) => s.id === old.id)?.is;
        // A clearance that was read back is closed. Its end, used or void, is added once.
        const wasRead = old.kind === "clearToStart" && old.is === "answered";
        return is === undefined || is === old.is || wasRead;
      });
    },
  },
  {
    id: "I12",
    text: "the recorded events, read back from their bytes, give the live state again",
    holds: ({ before, step }) => {
      steps += 1;
      if (steps % REPLAYED !== 0) return true;
      const events = JSON.parse(JSON.stringify(step.events)) as typeof step.events;
      const again = events.reduce<SessionState>((state, event) => evolve(state, event), before);
      return again.type === before.type && bytesOf(again) === bytesOf(step.state);
    },
  },
  {
    id: "I17",
    text: "one holder to a post and one post to a person; a post is taken only when vacant, offered or one's own; an old device acts for no post",
    holds: ({ before, step, move }) => {
      const actor = own(step)?.actor;
      if (move.is === "act" && actor?.kind === "person" && actor.post !== postOf(before, move.by))
        return false;
      const after = step.state;
      if (after.posts === before.posts) return true;
      const held = new Set<string>();
      for (const post of ["cockpit", "fireGuard", "groundPower", "supervisor"] as const) {
        const is = after.posts[post];
        if (is && held.has(is.id)) return false;
        if (is) held.add(is.id);
        const was = before.posts[post];
        if (!is || !was || is.id === was.id) continue;
        if (before.offers[post]?.to !== is.id) return false;
      }
      return true;
    },
  },
  {
    id: "I18",
    text: "every change is recorded, in events whose numbers have no gap and whose times never run back",
    holds: ({ before, step, move }) => {
      const { events, state } = step;
      if (state.seq !== before.seq + events.length) return false;
      if (events.length === 0) {
        return state === before && (move.is !== "act" || OVER.has(before.stage));
      }
      let at = before.at;
      for (let i = 0; i < events.length; i += 1) {
        const event = events[i];
        if (!event || event.seq !== before.seq + 1 + i || event.at < at) return false;
        at = event.at;
      }
      return state.at === at;
    },
  },
  {
    id: "I19",
    text: "nothing late goes unsaid: after every step no limit has passed without its reminder, and what stays unanswered is an alert",
    holds: ({ step, now }) => {
      if (OVER.has(step.state.stage)) return true;
      const { state } = step;
      return state.signals.every(
        (s) =>
          (s.dueAt === null || now < s.dueAt) &&
          (s.late < 2 || state.alerts.some((a) => a.ref === s.id && a.kind === "unanswered")),
      );
    },
  },
  {
    id: "I21",
    text: "every engine named is one the aircraft has",
    holds: ({ step: { state } }) =>
      inRange(state.guard?.engine, state) &&
      Object.keys(state.arcs).every((n) => inRange(Number(n), state)) &&
      state.cuts.every((c) => inRange(c.engine, state)) &&
      state.fires.every((f) => inRange(f.engine, state)) &&
      state.signals.every((s) => inRange(s.engine, state)),
  },
];
