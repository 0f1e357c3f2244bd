import type { SessionState } from "../../../shared/session/state.ts";
import { TYPE } from "../model.ts";
import { postOf } from "../moves.ts";
import { type Invariant, lifeOf, own, type Transition } from "./invariant.ts";

const STOPS_SENT = new Set(["hold", "cut", "cutAll", "fire", "turning"]);
const latches = (s: SessionState) => s.holds.length + s.cuts.length + s.fires.length;
const SLIP_MS = (TYPE.timing.slip?.value ?? 0) * 1000;
const TURNING = new Set(["cranking", "caught", "running", "stable"]);

/** Returns the kind of signal that the step's person sent, accepted or not; null for anything else. */
function sent({ move }: Transition): string | null {
  return move.is === "act" && move.action.type === "send" ? move.action.kind : null;
}

/** Returns the stops of one list that were open before and are gone. */
function gone<T extends { id: number }>(before: readonly T[], after: readonly T[]): T[] {
  return before === after ? [] : before.filter((b) => !after.some((a) => a.id === b.id));
}

export const STOPS: readonly Invariant[] = [
  {
    id: "I9",
    text: "a stop from anybody, at any time, late or with an unknown engine, is recorded and latched",
    holds: (t) => {
      const kind = sent(t);
      if (kind === null || !STOPS_SENT.has(kind)) return true;
      const { before, step } = t;
      if (before.stage === "closed" || before.stage === "abandoned") return true;
      return (
        step.refusal === undefined && own(step)?.fact.type === "sent" && latches(step.state) > latches(before)
      );
    },
  },
  {
    id: "I10",
    text: "fire cuts nothing by itself: no cut is set and what the engine did goes on",
    holds: (t) => {
      if (sent(t) !== "fire") return true;
      const { before, step } = t;
      if (step.state.cuts.length !== before.cuts.length) return false;
      return step.state.engines.every((e, i) => {
        const old = before.engines[i];
        const was = old && lifeOf(old).is;
        return was === undefined || !TURNING.has(was) || lifeOf(e).is === was;
      });
    },
  },
  {
    id: "I16",
    text: "a hold, cut or fire ends by its own release, reset or fire-out, or as a slip, and by nothing else, and only the one named",
    holds: (t) => {
      const kind = sent(t);
      const { before, step, move } = t;
      const ref = move.is === "act" && move.action.type === "send" ? move.action.ref : undefined;
      const ended = (list: { id: number }[], by: string) =>
        list.length === 0 ||
        (list.length === 1 && (kind === by || kind === "disregard") && list[0]?.id === ref);
      return (
        ended(gone(before.holds, step.state.holds), "release") &&
        ended(gone(before.cuts, step.state.cuts), "resetCut") &&
        ended(gone(before.fires, step.state.fires), "fireOut")
      );
    },
  },
  {
    id: "S3",
    text: "a hold is released by who raised it; the system's by supervisor or cockpit; when that person holds no post, by that post's holder or the supervisor with a reason",
    holds: ({ before, step, move }) => {
      const [hold] = gone(before.holds, step.state.holds);
      if (!hold || move.is !== "act" || move.action.type !== "send") return true;
      if (hold.person === move.by.id) return true;
      // The system's own hold for a silent post: the supervisor or the cockpit ends it.
      if (hold.person === null) return ["supervisor", "cockpit"].includes(postOf(before, move.by) ?? "");
      const there = Object.values(before.posts).some((h) => h !== null && h.id === hold.person);
      if (there) return false;
      const holds = (post: "supervisor" | NonNullable<typeof hold.by.post>) =>
        before.posts[post]?.id === move.by.id && before.posts[post]?.device === move.by.device;
      if (hold.by.post !== null && holds(hold.by.post)) return true;
      return holds("supervisor") && move.action.note !== undefined;
    },
  },
  {
    id: "S4",
    text: "a cut ends only after the cockpit reported it done, with none of its engines turning",
    holds: (t) => {
      const { before, step } = t;
      const [cut] = gone(before.cuts, step.state.cuts);
      if (!cut || sent(t) === "disregard") return true;
      const still = before.engines.some(
        (e) => (cut.engine === null || cut.engine === e.n) && TURNING.has(lifeOf(e).is),
      );
      return cut.doneAt !== null && !still;
    },
  },
  {
    id: "I23",
    text: "a fire ends on the word of two people on two devices",
    holds: (t) => {
      const { before, step, move } = t;
      const [fire] = gone(before.fires, step.state.fires);
      if (!fire || sent(t) === "disregard") return true;
      if (move.is !== "act" || fire.outBy === null) return false;
      return fire.outBy.person !== move.by.id && fire.outBy.device !== move.by.device;
    },
  },
  {
    id: "S16",
    text: "a slip is taken back in time by who sent the stop, on its device, before another stop of somebody else",
    holds: (t) => {
      const { before, step, move, now } = t;
      if (sent(t) !== "disregard" || move.is !== "act") return true;
      const [over] = [
        ...gone(before.holds, step.state.holds),
        ...gone(before.cuts, step.state.cuts),
        ...gone(before.fires, step.state.fires),
      ];
      if (!over) return true;
      const by = <T extends { id: number; slip?: { person: string } }>(list: readonly T[]) =>
        list.filter((s) => s.id > over.id && s.slip !== undefined && s.slip.person !== move.by.id);
      return (
        over.slip?.person === move.by.id &&
        over.slip.device === move.by.device &&
        now < over.by.at + SLIP_MS &&
        [...by(before.holds), ...by(before.cuts), ...by(before.fires)].length === 0 &&
        step.state.epoch >= before.epoch
      );
    },
  },
  {
    id: "S17",
    text: "a word of where a fire burns is taken from anybody, the engine it names burns, and no other stops burning",
    holds: (t) => {
      const { before, step, move } = t;
      if (sent(t) !== "fireAt" || move.is !== "act" || move.action.type !== "send") return true;
      if (before.stage === "closed" || before.stage === "abandoned") return true;
      const { engine } = move.action;
      const burns = (s: SessionState, n: number) => s.engines[n - 1]?.life.is === "fire";
      return (
        step.refusal === undefined &&
        // An engine that the type lacks leaves a fire of the whole aircraft.
        (engine === undefined || !before.engines[engine - 1] || burns(step.state, engine)) &&
        before.engines.every((e) => !burns(before, e.n) || burns(step.state, e.n))
      );
    },
  },
  {
    id: "S13",
    text: "no burning engine is cranked beside another that cranks, nor with its arc reported blocked",
    holds: (t) => {
      const fact = own(t.step)?.fact;
      // Cranked all the same, it is recorded as an engine seen turning.
      if (sent(t) !== "cranking" || fact?.type !== "sent" || fact.kind !== "cranking") return true;
      if (t.move.is !== "act") return true;
      const n = t.move.action.type === "send" ? t.move.action.engine : undefined;
      const { engines, arcs } = t.before;
      if (n === undefined || engines[n - 1]?.life.is !== "fire") return true;
      return arcs[n]?.clear !== false && engines.every((e) => e.n === n || lifeOf(e).is !== "cranking");
    },
  },
  {
    id: "S5",
    text: "an engine stops turning only by a person's word: shut down, given up, or a cut reported done",
    holds: ({ before, step, move }) =>
      move.is === "act" ||
      before.engines.every((e, i) => {
        const after = step.state.engines[i];
        return after === undefined || !TURNING.has(lifeOf(e).is) || TURNING.has(lifeOf(after).is);
      }),
  },
];
