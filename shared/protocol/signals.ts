import { z } from "zod";

/** Every kind of signal. `catalogue.ts` in session/ says who sends each, to whom, and what is due. */
export const SIGNAL_KINDS = [
  "readyToStart",
  "clearToStart",
  "revokeClearance",
  "cranking",
  "caught",
  "started",
  "startAbandoned",
  "shutDown",
  "turning",
  "guardInPlace",
  "guardAway",
  "arcClear",
  "arcNotClear",
  "hold",
  "release",
  "cut",
  "cutAll",
  "resetCut",
  "fire",
  "fireOut",
  "connectPower",
  "powerConnected",
  "disconnectPower",
  "powerDisconnected",
  "insertChocks",
  "chocksIn",
  "removeChocks",
  "chocksOut",
  "handlePropeller",
  "propellerFree",
  "brakesSet",
  "brakesReleased",
  "allClear",
  "negative",
] as const;
export const signalKindSchema = z.enum(SIGNAL_KINDS);
export type SignalKind = z.infer<typeof signalKindSchema>;

export const CHANNELS = ["panel", "hand", "interphone"] as const;
export const channelSchema = z.enum(CHANNELS);
export type Channel = z.infer<typeof channelSchema>;

/** What a person may answer. `readBack` re-enters the engine; `authorise` is the crew's leave to act. */
export const ANSWERS = ["received", "willComply", "authorise", "readBack", "done", "unable"] as const;
export const answerSchema = z.enum(ANSWERS);
export type Answer = z.infer<typeof answerSchema>;

export const FIRE_PLACES = ["induction", "exhaust", "nacelle", "groundEquipment", "notSaid"] as const;
export const firePlaceSchema = z.enum(FIRE_PLACES);
export type FirePlace = z.infer<typeof firePlaceSchema>;
