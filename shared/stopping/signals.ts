import { isTurning } from "../engine/life.ts";
import { attributionOf } from "../session/attribute.ts";
import type { Returning, SessionState } from "../session/state.ts";
import { accept, refuse } from "../session/verdict.ts";
import { ANNEX, toOnly } from "../signals/definition.ts";
import { answers, signal } from "../signals/kinds.ts";

function changed(state: SessionState, change: Partial<Returning>): SessionState {
  return state.returning ? { ...state, returning: { ...state.returning, ...change } } : state;
}

/** The aircraft was marshalled in and stands on its place. */
export const onStand = signal({
  from: ["supervisor", "fireGuard"],
  stages: ["arrival"],
  standard: { figure: "normalStop", text: `${ANNEX} 5.1 item 6a, normal stop` },
  remind: "service",
  decide: (state, send) =>
    state.returning?.onStand ? refuse("alreadyDone") : accept({ ...send, type: "sent" }),
  evolve: (state, event, fact) => changed(state, { onStand: attributionOf(event, fact.seenFrom ?? null) }),
  answer: answers({ due: toOnly("cockpit") }),
});

/** Every engine that turns idles from now on, to cool down. Said again, the time begins anew. */
export const coolDown = signal({
  from: ["cockpit"],
  stages: ["arrival", "stopping"],
  decide: (state, send) =>
    state.engines.some((e) => isTurning(e.life)) ? accept({ ...send, type: "sent" }) : refuse("nothingOpen"),
  evolve: (state, event) => changed(state, { coolingSince: event.at }),
});

/** Ignition and starter switches were proved off, after the last engine stopped. */
export const switchesOff = signal({
  from: ["cockpit"],
  stages: ["stopping", "stowing"],
  decide(state, send) {
    const turns = state.engines.find((e) => isTurning(e.life));
    if (turns) return refuse("wrongEngineState", { engine: turns.n, found: turns.life.is });
    return accept({ ...send, type: "sent" });
  },
  evolve: (state, event) => changed(state, { switchesOff: attributionOf(event, null) }),
});
