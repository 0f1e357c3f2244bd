import type { Giver, Known } from "../../handSignals/signal.ts";
import type { SignalKind } from "../../protocol/signals.ts";

export const GIVER_WORDS: Readonly<Record<Giver, string>> = {
  pilot: "From the cockpit",
  marshaller: "From the ground",
  fireCrew: "From the fire crew",
};

/** How sure a reference is. */
export const KNOWN_WORDS: Readonly<Record<Known, string>> = {
  read: "wording read in an official copy",
  secondHand: "wording known second-hand",
  fromMemory: "from memory, text not opened",
};

/** What is known about messages that have no standard hand signal. */
export const NO_FORM_WORDS: Readonly<Partial<Record<SignalKind, string>>> = {
  cranking: "The marshaller sees the propeller turn.",
  started: "Some ground crews echo the pilot's hand to say they saw it run.",
  turning: "Give emergency stop, and say the number.",
  arcNotClear: "Give hold or emergency stop, and say the number.",
  guardInPlace: "The guard stands where the pilot can see the guard.",
  powerConnected: "The T asks for power; nothing says that it is on. Say it.",
  powerDisconnected: "Show the plug in the hand, or say it.",
  release: "No hold ends by a gesture alone: say it.",
  handlePropeller: "Never by gesture: ignition off is confirmed in words.",
};
