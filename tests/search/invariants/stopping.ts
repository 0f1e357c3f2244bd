import { isOver, type SessionState } from "../../../shared/session/state.ts";
import { TYPE } from "../model.ts";
import { type Invariant, lifeOf, own, type Transition } from "./invariant.ts";

const TURNING = new Set(["cranking", "caught", "running", "stable"]);
const IDLE_MS = (TYPE.stopping?.coolDown?.atIdle?.value ?? 0) * 1000;

type Engine = SessionState["engines"][number];
const turns = (e: Engine | undefined) => e !== undefined && TURNING.has(lifeOf(e).is);

/** Engines that stopped in this step, as they are after it. */
function stopped({ before, step }: Transition): Engine[] {
  return step.state.engines.filter((e, i) => turns(before.engines[i]) && !turns(e));
}

/** The signal of this step's person, if it was taken. */
function taken({ move, step }: Transition) {
  const fact = own(step)?.fact;
  return move.is === "act" && fact?.type === "sent" ? fact : null;
}

export const STOPPING: readonly Invariant[] = [
  {
    id: "S30",
    text: "an engine that stops counts as not seen still, by whoever reported it; one that turns never as seen",
    holds: (t) =>
      stopped(t).every((e) => {
        if (t.move.is !== "act") return true;
        const by = e.unseen?.stoppedBy;
        return by?.person === t.move.by.id && by.device === t.move.by.device;
      }),
  },
  {
    id: "S31",
    text: "a propeller is seen still only by a person at a post, on another device than who stopped its engine, and never while it turns",
    holds: (t) =>
      t.step.state.engines.every((e, i) => {
        const was = t.before.engines[i]?.unseen;
        if (was === undefined || e.unseen !== undefined || turns(e)) return true;
        const fact = taken(t);
        if (t.move.is !== "act" || fact?.kind !== "propellerStill" || fact.engine !== e.n) return false;
        const { id, device } = t.move.by;
        return was.stoppedBy === null || (was.stoppedBy.person !== id && was.stoppedBy.device !== device);
      }),
  },
  {
    id: "S32",
    text: "hands go only to a propeller that stands and was seen still; after a return to none before all were, with the switches off",
    holds: ({ before, step }) => {
      const { handling, returning } = step.state;
      if (handling === null || before.handling !== null) return true;
      const safe = (e: Engine | undefined) => !turns(e) && e?.unseen === undefined;
      if (!safe(before.engines[handling.engine - 1])) return false;
      if (!returning) return true;
      return before.stage === "stowing" && before.engines.every(safe) && returning.switchesOff !== null;
    },
  },
  {
    id: "S33",
    text: "the switches are never off while an engine turns",
    holds: ({ step: { state } }) => !state.returning?.switchesOff || !state.engines.some(turns),
  },
  {
    id: "S34",
    text: "the crew's report that a turning engine was stopped is always taken, until the session is over",
    holds: (t) => {
      const { before, move, step } = t;
      if (move.is !== "act" || move.validUntil !== undefined || move.action.type !== "send") return true;
      const { kind, engine } = move.action;
      if (
        kind !== "shutDown" ||
        before.posts.cockpit?.id !== move.by.id ||
        !turns(before.engines[(engine ?? 0) - 1])
      )
        return true;
      if (before.posts.cockpit.device !== move.by.device || isOver(before)) return true;
      return !turns(step.state.engines[(engine ?? 0) - 1]);
    },
  },
  {
    id: "S35",
    text: "an engine stopped before its cool-down was over is on the record as such, and no other",
    holds: (t) => {
      const cut = t.step.events.flatMap((e) => (e.fact.type === "coolDownCut" ? [e.fact.engine] : []));
      const since = t.before.returning?.coolingSince ?? null;
      const short = stopped(t).filter((e) => {
        const ran = t.before.engines[e.n - 1];
        const cooled = since !== null && t.now - since >= IDLE_MS;
        return t.before.returning !== undefined && ran && lifeOf(ran).is === "stable" && !cooled;
      });
      return cut.length === short.length && short.every((e) => cut.includes(e.n));
    },
  },
  {
    id: "S36",
    text: "nobody stows or ends a return with an engine turning, a propeller not seen still or the switches in doubt",
    holds: ({ before, step }) => {
      const { stage, returning } = step.state;
      if (stage === before.stage || !returning || (stage !== "stowing" && stage !== "closed")) return true;
      const still = before.engines.every((e) => !turns(e) && e.unseen === undefined);
      const written = stage === "stowing" || returning.remarksDue.length === 0;
      return still && returning.switchesOff !== null && before.handling === null && written;
    },
  },
];
