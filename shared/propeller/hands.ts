import { authorityFault } from "../leaves/fault.ts";
import { leaveAnswers, service } from "../leaves/service.ts";
import { FROM_SECURE } from "../protocol/stages.ts";
import { accept, refuse } from "../session/verdict.ts";
import { signal } from "../signals/kinds.ts";

/** Hands on one engine's propeller. The cockpit's leave is its word that ignition is off. */
export const handlePropeller = service("handlePropeller", (state) => state.handling !== null, {
  from: ["fireGuard", "groundPower", "cockpit"],
  stages: ["secure", "powerUp", "groundPower", "starting"],
  engine: "required",
  decide: (state, send, { now }) =>
    authorityFault(state, "handlePropeller", now, send.engine ?? null) ?? accept({ ...send, type: "sent" }),
  answer: {
    ...leaveAnswers("handlePropeller"),
    due: (from) => (from === "cockpit" ? [] : ["cockpit"]),
  },
});

export const propellerFree = signal({
  from: ["fireGuard", "groundPower"],
  stages: FROM_SECURE,
  engine: "required",
  witnessable: true,
  decide: (state, send) =>
    state.handling?.engine === send.engine ? accept({ ...send, type: "sent" }) : refuse("nothingOpen"),
  evolve: (state) => ({ ...state, handling: null }),
});
