import { askedOf } from "../../../shared/asks/asked.ts";
import { POSTS } from "../../../shared/protocol/posts.ts";
import type { SessionState } from "../../../shared/session/state.ts";
import { hasStop, type Invariant, lifeOf, type Transition } from "./invariant.ts";

/** Returns the keys of the answers on which a clearance for an engine stands. */
function standsOn({ type }: SessionState, n: number): string[] {
  return (type.card ?? []).flatMap(({ id, moment, clearance }) => {
    if (!clearance) return [];
    if (moment === "beforeStart") return [id];
    return moment === "beforeEngine" ? [`${id}:${n}`] : [];
  });
}

function answered(state: SessionState, n: number): boolean {
  return standsOn(state, n).every((key) => state.card?.[key]?.good === true);
}

/** Returns the engine that was cleared before the step and turns on its starter after it. */
function crankedOn({ before, step }: Transition): number | null {
  const engine = step.state.engines.find(
    (e, i) => lifeOf(e).is === "cranking" && before.engines[i]?.life.is === "clear",
  );
  return engine?.n ?? null;
}

const TURNING = ["cranking", "caught", "running", "stable"];

export const CARD: readonly Invariant[] = [
  {
    id: "S26",
    text: "no clearance stands, and none is cranked on, while an item on which it stands is unanswered or not good",
    holds: (t) => {
      const { state } = t.step;
      const n = crankedOn(t);
      const clear = state.engines.every((e) => lifeOf(e).is !== "clear" || answered(state, e.n));
      return clear && (n === null || answered(t.before, n));
    },
  },
  {
    id: "S27",
    text: "what was prepared for a start is not answered any more once its engine has stopped turning",
    holds: ({ before, step: { state } }) =>
      state.engines.every((e, i) => {
        const was = before.engines[i];
        if (!was || !TURNING.includes(lifeOf(was).is) || TURNING.includes(lifeOf(e).is)) return true;
        const prepared = (state.type.card ?? []).filter((item) => item.moment === "beforeEngine");
        return prepared.every(({ id }) => state.card?.[`${id}:${e.n}`] === undefined);
      }),
  },
  {
    id: "S28",
    text: "nobody is asked for an item of the card while a starter is held or a stop stands",
    holds: ({ step: { state, events }, now }) => {
      if (state.type.card === undefined || events.length === 0) return true;
      if (!hasStop(state) && !state.engines.some((e) => lifeOf(e).is === "cranking")) return true;
      return POSTS.every((post) => askedOf(state, post, now).every((a) => !a.key.startsWith("card:")));
    },
  },
];
