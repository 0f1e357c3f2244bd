import { signals } from "../words/en/signals.ts";

/** A kind of signal: the key of its English words. `signals/all.ts` does not compile without its definition. */
export type SignalKind = keyof typeof signals;

export const SIGNAL_KINDS = Object.keys(signals) as readonly SignalKind[];

/** A kind that asks for an answer, with the sentence that asks. A clearance answers `readyToStart`, which has none. */
export type AskedKind = {
  [Kind in SignalKind]: (typeof signals)[Kind] extends { asks: string } ? Kind : never;
}[SignalKind];

export function isAsked(kind: SignalKind): kind is AskedKind {
  return "asks" in signals[kind];
}

export const CHANNELS = ["panel", "hand", "interphone"] as const;
export type Channel = (typeof CHANNELS)[number];

/** Answers that a person may give. `readBack` re-enters the engine; `authorise` is the crew's leave to act. */
export const ANSWERS = ["received", "willComply", "authorise", "readBack", "done", "unable"] as const;
export type Answer = (typeof ANSWERS)[number];

export const FIRE_PLACES = ["induction", "exhaust", "nacelle", "groundEquipment", "notSaid"] as const;
export type FirePlace = (typeof FIRE_PLACES)[number];
