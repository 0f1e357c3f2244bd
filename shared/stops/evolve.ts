import { crank, withEngine } from "../engine/evolve.ts";
import { isTurning, plain } from "../engine/life.ts";
import type { FactOf, SessionEvent } from "../protocol/events.ts";
import { said } from "../session/attribute.ts";
import { newEpoch } from "../session/epoch.ts";
import type { SessionState } from "../session/state.ts";
import { closeKinds, closeSignal } from "../signals/evolve.ts";

/** Stops latch and open a new epoch, which ends every clearance and authority. */
export function evolveStop(before: SessionState, event: SessionEvent, fact: FactOf<"sent">): SessionState {
  if (fact.kind === "fireOut") return fireOut(before, event, fact);
  const by = said(event, fact.seenFrom ?? null);
  const person = event.actor.kind === "person" ? event.actor.id : null;
  const state = closeKinds(newEpoch(before), ["allClear", "handlePropeller"], "revoked");
  const id = event.seq;
  switch (fact.kind) {
    case "cut":
    case "cutAll":
      return {
        ...state,
        cuts: [...state.cuts, { id, by, person: person ?? "", engine: fact.engine ?? null, doneAt: null }],
      };
    case "fire": {
      const fire = { id, by, engine: fact.engine ?? null, place: fact.place ?? "notSaid", outBy: null };
      const struck = fact.engine === undefined ? state : setAlight(state, fact.engine, id, event.at);
      return { ...struck, fires: [...struck.fires, fire] };
    }
    case "turning": {
      const n = fact.engine ?? 0;
      const already = state.engines.some((e) => e.n === n && isTurning(e.life));
      const asked = closeKinds(state, ["readyToStart", "clearToStart"], "superseded", n);
      const turning = already ? asked : crank(asked, n, event.at, { cleared: false, expected: undefined });
      return { ...turning, holds: [...turning.holds, { id, by, person, note: `turning ${n}` }] };
    }
    default:
      return { ...state, holds: [...state.holds, { id, by, person, note: fact.note ?? null }] };
  }
}

/** Fire wraps whatever the engine was doing, which goes on under it: fire never cuts by itself. */
function setAlight(state: SessionState, n: number, fire: number, since: number): SessionState {
  return withEngine(state, n, (e) => ({ ...e, life: { is: "fire", since, fire, under: plain(e.life) } }));
}

/** The first person's word is kept; the second's ends the fire. An engine not turning is then shut down. */
function fireOut(state: SessionState, event: SessionEvent, fact: FactOf<"sent">): SessionState {
  const fire = state.fires.find((f) => f.id === fact.ref);
  const { actor } = event;
  if (!fire || actor.kind !== "person") return state;
  if (fire.outBy === null) {
    const outBy = { person: actor.id, device: actor.device, name: actor.name, at: event.at };
    return { ...state, fires: state.fires.map((f) => (f.id === fire.id ? { ...f, outBy } : f)) };
  }
  const rest = state.fires.filter((f) => f.id !== fire.id);
  const stillBurning = rest.find((f) => f.engine === fire.engine);
  const closed = closeSignal({ ...state, fires: rest }, fire.id, "done");
  if (fire.engine === null) return closed;
  return withEngine(closed, fire.engine, (e) => {
    const life = plain(e.life);
    if (stillBurning && e.life.is === "fire") return { ...e, life: { ...e.life, fire: stillBurning.id } };
    return { ...e, life: isTurning(life) ? life : { is: "shutDown", since: event.at, reason: "fire" } };
  });
}

/** A needed post fell silent: the system holds, in the name of the silent post, and never lets go by itself. */
export function evolveLapse(
  state: SessionState,
  event: SessionEvent,
  fact: FactOf<"presenceLapsed">,
): SessionState {
  const by = { ...said(event, null), post: fact.post, name: state.posts[fact.post]?.name ?? "" };
  const hold = { id: event.seq, by, person: null, note: `silent ${fact.post}` };
  const held = closeKinds(newEpoch(state), ["allClear", "handlePropeller"], "revoked");
  return { ...held, holds: [...held.holds, hold] };
}
