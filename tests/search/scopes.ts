import { SIGNAL_KINDS, type SignalKind } from "../../shared/protocol/signals.ts";
import type { SessionState } from "../../shared/session/state.ts";
import { PEOPLE } from "./model.ts";
import { ROOTS, type Root } from "./roots.ts";

export type Who = keyof typeof PEOPLE;

/**
 * A part of the behaviour that is small enough for a deep search: the people, their actions, and how much may be open
 * at once.
 */
export interface Scope {
  name: string;
  roots: readonly Root[];
  people: readonly Who[];
  kinds: readonly SignalKind[];
  /** Kinds that only these people send; other kinds follow their definition. */
  onlyFrom: Partial<Record<SignalKind, readonly Who[]>>;
  /** Kinds whose answers belong to the scope. */
  answered: readonly SignalKind[];
  /** Claims, leaves, offers, moves to another device, briefs. */
  posts: boolean;
  /** Stages, order, end of the session. */
  course: boolean;
  time: boolean;
  /** Restart of the server, steps of its clock. */
  upset: boolean;
  /**
   * Acknowledging and shelving. Without them alerts are left out of the states, because they decide nothing of a start.
   */
  alerts: boolean;
  /** A condition set aside by two people. */
  overrides: boolean;
  /** Defects written and closed. */
  defects: boolean;
  /** The drill opened and ended. */
  drills: boolean;
  /** Oil pressure read by the cockpit, good and low. */
  oil: boolean;
  /** The type has a card, whose items are answered in any order, good and not good. */
  card: boolean;
  /** The type has a faster idle and oil dilution: oil temperatures and forecasts are said, good and not. */
  warms: boolean;
  /** The supervisor begins and ends supervising another aircraft, and says at which one they stand. */
  supervisesAlso: boolean;
  /** Engines that actions may name. */
  engines: readonly number[];
  /** A state with more open than this is not followed further. */
  most: { stops: number; sameSignal: number; alerts: number };
}

const POSTS: Who[] = ["cockpit", "fireGuard", "groundPower", "supervisor"];
const START: SignalKind[] = ["readyToStart", "clearToStart", "revokeClearance", "cranking", "startAbandoned"];
const GUARD: SignalKind[] = ["guardInPlace", "guardAway", "arcClear", "arcNotClear"];
const RUN: SignalKind[] = ["caught", "started", "shutDown"];
const SERVICE: SignalKind[] = [
  "connectPower",
  "powerConnected",
  "disconnectPower",
  "powerDisconnected",
  "insertChocks",
  "chocksIn",
  "removeChocks",
  "chocksOut",
  "clearOfAircraft",
];

const EVERYTHING: Scope = {
  name: "everything",
  roots: ROOTS,
  people: Object.keys(PEOPLE) as Who[],
  kinds: SIGNAL_KINDS,
  onlyFrom: {},
  answered: SIGNAL_KINDS,
  posts: true,
  course: true,
  time: true,
  upset: true,
  alerts: true,
  overrides: true,
  defects: true,
  drills: true,
  oil: true,
  card: false,
  warms: false,
  supervisesAlso: false,
  engines: [1, 2],
  most: { stops: 2, sameSignal: 2, alerts: 3 },
};

const small: Scope = {
  ...EVERYTHING,
  people: POSTS,
  answered: ["readyToStart", "clearToStart"],
  posts: false,
  course: false,
  upset: false,
  alerts: false,
  overrides: false,
  defects: false,
  drills: false,
  oil: false,
  most: { stops: 1, sameSignal: 1, alerts: 99 },
};

export const SCOPES: readonly Scope[] = [
  EVERYTHING,
  {
    ...small,
    name: "clearance",
    roots: ["prepared"],
    kinds: [...START, ...GUARD, "brakesSet", "hold", "release"],
    onlyFrom: { hold: ["groundPower"], release: ["groundPower"], arcNotClear: ["fireGuard"] },
    answered: ["clearToStart"],
    engines: [1],
    upset: true,
  },
  {
    ...small,
    name: "card",
    roots: ["prepared", "cleared", "cranking"],
    people: ["cockpit", "fireGuard", "supervisor"],
    kinds: [...START, "caught", "shutDown", "guardInPlace", "arcClear", "hold", "release"],
    onlyFrom: { hold: ["fireGuard"], release: ["fireGuard"], guardInPlace: ["fireGuard"] },
    answered: ["clearToStart"],
    engines: [1],
    time: false,
    card: true,
  },
  {
    ...small,
    name: "idle",
    roots: ["firstStable", "warmUp"],
    people: ["cockpit", "fireGuard", "supervisor"],
    kinds: [...START, ...RUN, "idleFaster", "guardInPlace", "arcClear", "hold", "release"],
    onlyFrom: { hold: ["fireGuard"], release: ["fireGuard"], guardInPlace: ["fireGuard"] },
    answered: ["clearToStart"],
    time: false,
    oil: true,
    warms: true,
  },
  {
    ...small,
    name: "night",
    roots: ["stopping", "lastStopped"],
    kinds: ["coolDown", "shutDown", "propellerStill", "switchesOff"],
    course: true,
    time: false,
    warms: true,
  },
  {
    ...small,
    name: "standing",
    roots: ["prepared"],
    people: ["cockpit", "fireGuard", "supervisor"],
    kinds: ["guardInPlace", "arcClear", "readyToStart", "clearToStart", "startAbandoned"],
    answered: ["clearToStart"],
    time: false,
    supervisesAlso: true,
    engines: [1],
  },
  {
    ...small,
    name: "running",
    roots: ["prepared"],
    kinds: [...START, ...RUN, "guardInPlace", "arcClear"],
    answered: ["clearToStart"],
    time: false,
    oil: true,
  },
  {
    ...small,
    name: "stops",
    roots: ["cranking", "firstStable"],
    people: [...POSTS, "spare"],
    kinds: [
      "hold",
      "release",
      "cut",
      "cutAll",
      "resetCut",
      "fire",
      "fireAt",
      "fireOut",
      "disregard",
      "turning",
      "cranking",
      "shutDown",
    ],
    onlyFrom: {
      hold: ["groundPower", "spare"],
      cut: ["fireGuard"],
      cutAll: ["spare"],
      fireAt: ["groundPower"],
      disregard: ["fireGuard", "spare"],
      turning: ["groundPower"],
    },
    answered: ["cut", "cutAll"],
    time: false,
    most: { stops: 2, sameSignal: 2, alerts: 99 },
  },
  {
    ...small,
    name: "posts",
    roots: ["cleared"],
    people: Object.keys(PEOPLE) as Who[],
    kinds: ["guardInPlace", "arcClear", "readyToStart", "clearToStart", "cranking", "hold", "release"],
    onlyFrom: { hold: ["fireGuard", "spare"] },
    answered: ["clearToStart"],
    posts: true,
    time: false,
    engines: [1],
  },
  {
    ...small,
    name: "overrides",
    roots: ["prepared"],
    kinds: [
      "readyToStart",
      "clearToStart",
      "guardInPlace",
      "arcClear",
      "brakesSet",
      "brakesReleased",
      "cranking",
    ],
    answered: ["clearToStart"],
    engines: [1],
    overrides: true,
    defects: true,
  },
  {
    ...small,
    name: "propeller",
    roots: ["prepared"],
    kinds: [...START, "guardInPlace", "arcClear", "handlePropeller", "propellerFree", "turning", "release"],
    onlyFrom: { turning: ["fireGuard"], release: ["fireGuard"] },
    answered: ["clearToStart", "handlePropeller"],
    time: false,
  },
  {
    ...small,
    name: "stopping",
    roots: ["stopping", "lastStopped"],
    people: [...POSTS, "guardAgain"],
    kinds: [
      "coolDown",
      "shutDown",
      "propellerStill",
      "switchesOff",
      "handlePropeller",
      "propellerFree",
      "turning",
      "cranking",
      "cut",
      "resetCut",
      "release",
    ],
    onlyFrom: {
      turning: ["groundPower"],
      cut: ["fireGuard"],
      cranking: ["cockpit"],
      release: ["groundPower"],
      handlePropeller: ["groundPower"],
    },
    answered: ["cut", "handlePropeller"],
    course: true,
    defects: true,
    time: true,
    engines: [1, 2],
  },
  {
    ...small,
    name: "leaves",
    roots: ["prepared"],
    kinds: [
      "readyToStart",
      "clearToStart",
      "guardInPlace",
      "arcClear",
      "disconnectPower",
      "insertChocks",
      "chocksIn",
      "clearOfAircraft",
      "hold",
      "release",
    ],
    onlyFrom: { hold: ["groundPower"], release: ["groundPower"], chocksIn: ["groundPower"] },
    answered: ["disconnectPower", "insertChocks"],
    time: false,
    engines: [1],
    drills: true,
  },
  {
    ...small,
    name: "services",
    roots: ["warmUp"],
    kinds: [...SERVICE, "brakesSet", "brakesReleased", "hold", "release", "allClear"],
    onlyFrom: { hold: ["groundPower"], release: ["groundPower"] },
    answered: [...SERVICE, "allClear"],
    course: true,
    time: false,
    upset: true,
  },
];

export function scopeNamed(name: string): Scope {
  const scope = SCOPES.find((s) => s.name === name);
  if (!scope) throw new Error(`no scope ${name}; there are ${SCOPES.map((s) => s.name).join(", ")}`);
  return scope;
}

/** Returns whether a state is within the scope's bounds and so is followed further. */
export function within(state: SessionState, most: Scope["most"]): boolean {
  if (state.holds.length + state.cuts.length + state.fires.length > most.stops) return false;
  if (state.alerts.length > most.alerts) return false;
  const signals = state.signals;
  for (let i = 0; i < signals.length; i += 1) {
    let same = 0;
    for (let j = i; j < signals.length; j += 1) {
      if (signals[j]?.kind === signals[i]?.kind && signals[j]?.engine === signals[i]?.engine) same += 1;
    }
    if (same > most.sameSignal) return false;
  }
  return true;
}
