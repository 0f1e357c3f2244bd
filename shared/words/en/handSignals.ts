import type { Giver, Known } from "../../handSignals/signal.ts";
import type { SignalKind } from "../../protocol/signals.ts";

/** Words around the hand signals. The words of each signal are beside the signals. */
export const handSignals = {
  givers: {
    pilot: "From the cockpit",
    marshaller: "From the ground",
    fireCrew: "From the fire crew",
  } satisfies Record<Giver, string>,
  /** Certainty of a reference. */
  known: {
    read: "wording read in an official copy",
    secondHand: "wording known second-hand",
    fromMemory: "from memory, text not opened",
  } satisfies Record<Known, string>,
  /** Practice for messages that have no standard hand signal. */
  noForm: {
    cranking: "The marshaller sees the propeller turn.",
    started: "Some ground crews echo the pilot's hand to say they saw it run.",
    turning: "Give emergency stop, and say the number.",
    arcNotClear: "Give hold or emergency stop, and say the number.",
    guardInPlace: "The guard stands where the pilot can see the guard.",
    powerConnected: "The T asks for power; nothing says that it is on. Say it.",
    powerDisconnected: "Show the plug in the hand, or say it.",
    release: "No hold ends by a gesture alone: say it.",
    handlePropeller: "Never by gesture: ignition off is confirmed in words.",
  } satisfies Partial<Record<SignalKind, string>>,
  courses: {
    held: "Held still until it is understood.",
    once: "Made once, from beginning to end.",
    again: "Made again and again until it is understood.",
  },
};

export type HandSignalWords = typeof handSignals;
