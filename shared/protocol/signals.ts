/** Every kind of signal. `signals/all.ts` defines each. */
export const SIGNAL_KINDS = [
  "readyToStart",
  "clearToStart",
  "cranking",
  "caught",
  "started",
  "startAbandoned",
  "shutDown",
  "revokeClearance",
  "turning",
  "guardInPlace",
  "arcClear",
  "arcNotClear",
  "guardAway",
  "peopleAtAircraft",
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
  "clearOfAircraft",
  "handlePropeller",
  "propellerFree",
  "propellerStill",
  "brakesSet",
  "brakesReleased",
  "allClear",
  "negative",
] as const;
export type SignalKind = (typeof SIGNAL_KINDS)[number];

/** Kinds that ask nobody for an answer. `readyToStart` is among them because a clearance answers it. */
export const UNASKED_KINDS = [
  "readyToStart",
  "revokeClearance",
  "cranking",
  "caught",
  "started",
  "startAbandoned",
  "shutDown",
  "guardInPlace",
  "guardAway",
  "arcClear",
  "arcNotClear",
  "peopleAtAircraft",
  "release",
  "resetCut",
  "fireOut",
  "clearOfAircraft",
  "propellerFree",
  "propellerStill",
  "brakesSet",
  "brakesReleased",
  "negative",
] as const satisfies readonly SignalKind[];
/** Every other kind asks, and needs a sentence in each language. */
export type AskedKind = Exclude<SignalKind, (typeof UNASKED_KINDS)[number]>;

export function isAsked(kind: SignalKind): kind is AskedKind {
  return !(UNASKED_KINDS as readonly SignalKind[]).includes(kind);
}

export const CHANNELS = ["panel", "hand", "interphone"] as const;
export type Channel = (typeof CHANNELS)[number];

/** Answers that a person may give. `readBack` re-enters the engine; `authorise` is the crew's leave to act. */
export const ANSWERS = ["received", "willComply", "authorise", "readBack", "done", "unable"] as const;
export type Answer = (typeof ANSWERS)[number];

export const FIRE_PLACES = ["induction", "exhaust", "nacelle", "groundEquipment", "notSaid"] as const;
export type FirePlace = (typeof FIRE_PLACES)[number];
