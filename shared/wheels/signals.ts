import { foundDone, service, serviceReport, spent } from "../leaves/service.ts";
import type { FactOf, SessionEvent } from "../protocol/events.ts";
import { FROM_SECURE, LIVE_STAGES, type Stage } from "../protocol/stages.ts";
import { figureFault } from "../readings/figureFault.ts";
import { attributionOf, giverOf } from "../session/attribute.ts";
import type { SessionState } from "../session/state.ts";
import { accept } from "../session/verdict.ts";
import { ANNEX, SI } from "../signals/definition.ts";
import { lowering, signal } from "../signals/kinds.ts";

const LEAVING: readonly Stage[] = ["warmUp", "release"];

export const insertChocks = service("insertChocks", (state) => state.chocks?.in === true, {
  stages: FROM_SECURE,
  standard: { figure: "insertChocks", text: `${SI}(3), insert chocks` },
});

export const chocksIn = serviceReport({
  stages: FROM_SECURE,
  standard: { figure: "chocksInserted", text: `${ANNEX} 5.1 item 8, chocks inserted` },
  evolve: (state, event, fact) =>
    spent(chocksSeen(state, event, fact, true), "insertChocks", giverOf(event, fact)),
});

export const removeChocks = service("removeChocks", (state) => state.chocks?.in === false, {
  stages: LEAVING,
  standard: { figure: "removeChocks", text: `${SI}(4), remove chocks` },
});

export const chocksOut = serviceReport({
  class: "lowers",
  stages: LIVE_STAGES,
  standard: { figure: "chocksRemoved", text: `${ANNEX} 5.1 item 8, chocks removed` },
  decide: (state, send) => foundDone(state, send, "removeChocks"),
  evolve: (state, event, fact) =>
    spent(chocksSeen(state, event, fact, false), "removeChocks", giverOf(event, fact)),
});

export const brakesSet = signal({
  from: ["cockpit"],
  stages: FROM_SECURE,
  standard: { figure: "brakesEngaged", text: `${SI}(1), brakes engaged` },
  lowersBy({ type: { brakePressure } }, { pressure }) {
    const { value, unit } = brakePressure.atLeast;
    return pressure?.unit === unit && pressure.value < value;
  },
  decide: (state, send) =>
    figureFault(send.pressure, state.type.brakePressure.atLeast.unit) ?? accept({ ...send, type: "sent" }),
  evolve: (state, event, fact) => ({
    ...state,
    brakes: { ...attributionOf(event, fact.seenFrom ?? null), set: true, pressure: fact.pressure ?? null },
  }),
});

export const brakesReleased = lowering({
  from: ["cockpit"],
  standard: { figure: "brakesReleased", text: `${SI}(2), brakes released` },
  evolve: (state, event, fact) => ({
    ...state,
    brakes: { ...attributionOf(event, fact.seenFrom ?? null), set: false, pressure: null },
    // The leave to remove the chocks depended on the brakes.
    authorities: { ...state.authorities, removeChocks: null },
  }),
});

function chocksSeen(
  state: SessionState,
  event: SessionEvent,
  fact: FactOf<"sent">,
  isIn: boolean,
): SessionState {
  return { ...state, chocks: { ...attributionOf(event, fact.seenFrom ?? null), in: isIn }, allClearAt: null };
}
