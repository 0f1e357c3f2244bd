import { plain } from "../engine/life.ts";
import type { Action } from "../protocol/commands.ts";
import { POSTS, type Post } from "../protocol/posts.ts";
import type { FaultKind } from "../protocol/rehearsalFaults.ts";
import type { FirePlace, SignalKind } from "../protocol/signals.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import type { Wrong } from "../simulation/state.ts";

/** What ends a fault: the end of the engine's attempt, its standing still, a number of seconds, or nothing. */
type Until = { is: "attemptOver" } | { is: "engineStill" } | { is: "seconds"; s: number } | { is: "never" };

/** A word of a partner about a fault. */
export interface Word {
  /** Said by the first of these that a partner holds. */
  from: readonly Post[];
  say(n: number): Action;
  /** True once it is time to say it; absent: as soon as it is seen. */
  when?(state: SessionState, n: number): boolean;
}

/** One kind of fault: what it does to the aircraft and to people, and what a good crew says. */
export interface FaultDefinition {
  about: "engine" | "aircraft" | "post";
  /** The post that it befalls unless another is named. Present for the faults about a post. */
  usualPost?: Post;
  /** What it does to the simulated aircraft. */
  wrong(n: number): Partial<Wrong>;
  /** The posts from which it can be seen or heard. The others have to be told. */
  seenBy: readonly Post[];
  /** What partners who see it say of it, each word once. Empty: the figures tell, or nobody has to say anything. */
  says: readonly Word[];
  /** Signals that answer it, from anybody. Empty: no stop is needed, and one is unnecessary. */
  answers: readonly SignalKind[];
  until: Until;
  /** A partner at the post it befalls does nothing meanwhile. */
  silences: "nobody" | "post" | "everybody";
  /** The panels of the people at the posts it silences hear nothing either, and nothing they send arrives. */
  cutsPanels?: true;
}

const send = (kind: SignalKind, more: Partial<Extract<Action, { type: "send" }>> = {}): Action => ({
  ...{ type: "send", kind, channel: "panel" },
  ...more,
});

const NOTHING = () => ({});
const QUIET = { says: [], silences: "nobody" } as const;
const STOPS = ["hold", "cut", "cutAll"] as const;

const fireIn = (place: FirePlace): FaultDefinition => ({
  about: "engine",
  wrong: (n) => ({ dead: [n] }),
  seenBy: ["fireGuard", "supervisor"],
  says: [
    { from: ["fireGuard", "supervisor"], say: (n) => send("fire", { engine: n, place }) },
    {
      from: ["cockpit"],
      say: (n) => send("shutDown", { engine: n, note: "Fire" }),
      when: (state, n) => state.fires.length > 0 && runs(state, n),
    },
  ],
  answers: ["fire"],
  until: { is: "seconds", s: 45 },
  silences: "nobody",
});

const badAttempt = (wrong: FaultDefinition["wrong"]): FaultDefinition => ({
  about: "engine",
  wrong,
  seenBy: ["cockpit", "fireGuard"],
  answers: ["startAbandoned", "hold", "cut", "cutAll"],
  until: { is: "attemptOver" },
  ...QUIET,
});

/** It runs on its own, or was said to. */
const runs = (state: SessionState, n: number): boolean => {
  const is = plain(engineOf(state, n)?.life ?? { is: "waiting" }).is;
  return is === "caught" || is === "running" || is === "stable";
};

/** Nobody waits longer than the type says: the program told that the oil is late, or the gauge fell to nothing. */
const oilLate = (state: SessionState, n: number): boolean => {
  const life = plain(engineOf(state, n)?.life ?? { is: "waiting" });
  return life.is === "caught" ? life.firstLateSaid : runs(state, n);
};

const oil = (until: Until): FaultDefinition => ({
  about: "engine",
  wrong: (n) => ({ noOil: [n] }),
  seenBy: ["cockpit"],
  says: [
    {
      from: ["cockpit"],
      say: (n) => send("shutDown", { engine: n, note: "No oil pressure" }),
      when: oilLate,
    },
  ],
  answers: ["shutDown", "cut", "cutAll"],
  until,
  silences: "nobody",
});

const noPower: FaultDefinition = {
  about: "aircraft",
  wrong: () => ({ cart: 0 }),
  seenBy: ["groundPower", "cockpit"],
  says: [{ from: ["groundPower"], say: () => send("powerDisconnected") }],
  answers: ["powerDisconnected", ...STOPS, "startAbandoned"],
  until: { is: "seconds", s: 60 },
  silences: "nobody",
};

/** Every fault. What a good crew answers is that of the drills and of the hazard record. */
export const FAULT: Readonly<Record<FaultKind, FaultDefinition>> = {
  noOilPressure: oil({ is: "attemptOver" }),
  oilLost: oil({ is: "engineStill" }),
  hungStart: badAttempt((n) => ({ hung: [n] })),
  kickback: badAttempt((n) => ({ dead: [n] })),
  flooded: badAttempt((n) => ({ dead: [n] })),
  inductionFire: fireIn("induction"),
  exhaustFire: fireIn("exhaust"),
  nacelleFire: fireIn("nacelle"),
  torching: {
    about: "engine",
    wrong: NOTHING,
    seenBy: ["fireGuard", "supervisor"],
    answers: [],
    until: { is: "seconds", s: 4 },
    ...QUIET,
  },
  cartSags: {
    about: "aircraft",
    wrong: () => ({ cart: 0.8 }),
    seenBy: ["groundPower", "cockpit"],
    answers: [...STOPS, "powerDisconnected", "startAbandoned"],
    until: { is: "seconds", s: 90 },
    says: [{ from: ["groundPower"], say: () => send("hold", { note: "Low volts" }) }],
    silences: "nobody",
  },
  cartDrops: noPower,
  plugFallsOut: noPower,
  generatorDead: {
    about: "engine",
    wrong: (n) => ({ generatorDead: [n] }),
    seenBy: ["cockpit"],
    answers: [],
    until: { is: "never" },
    ...QUIET,
  },
  vacuumDead: {
    about: "aircraft",
    wrong: () => ({ vacuumDead: true }),
    seenBy: ["cockpit"],
    answers: [],
    until: { is: "never" },
    ...QUIET,
  },
  brakesBleed: {
    about: "aircraft",
    wrong: () => ({ brakesBleed: true }),
    seenBy: ["cockpit"],
    says: [{ from: ["cockpit"], say: () => send("brakesReleased") }],
    answers: ["brakesReleased", ...STOPS],
    until: { is: "seconds", s: 20 },
    silences: "nobody",
  },
  guardLost: {
    about: "post",
    usualPost: "fireGuard",
    wrong: NOTHING,
    seenBy: ["cockpit", "supervisor"],
    says: [
      { from: ["supervisor", "cockpit"], say: (n) => send("hold", { engine: n, note: "Guard not seen" }) },
    ],
    answers: STOPS,
    until: { is: "seconds", s: 25 },
    silences: "post",
  },
  personInArc: {
    about: "engine",
    wrong: NOTHING,
    seenBy: ["fireGuard", "supervisor"],
    says: [{ from: ["fireGuard", "supervisor"], say: (n) => send("arcNotClear", { engine: n }) }],
    answers: ["arcNotClear", ...STOPS],
    until: { is: "seconds", s: 15 },
    silences: "nobody",
  },
  /** The partner in the cockpit reads the number of another engine back, once. */
  wrongNumber: {
    about: "engine",
    wrong: NOTHING,
    seenBy: ["supervisor", "fireGuard"],
    answers: ["revokeClearance", ...STOPS],
    until: { is: "seconds", s: 60 },
    ...QUIET,
  },
  handContradicts: {
    about: "post",
    usualPost: "fireGuard",
    wrong: NOTHING,
    seenBy: ["cockpit", "supervisor"],
    says: [
      {
        from: ["cockpit", "supervisor"],
        say: () => send("hold", { channel: "hand", seenFrom: "fireGuard" }),
      },
    ],
    answers: STOPS,
    until: { is: "seconds", s: 10 },
    silences: "nobody",
  },
  deadTablet: {
    about: "post",
    usualPost: "groundPower",
    wrong: NOTHING,
    seenBy: [],
    answers: [],
    until: { is: "seconds", s: 45 },
    says: [],
    silences: "post",
    cutsPanels: true,
  },
  networkGone: {
    about: "aircraft",
    wrong: NOTHING,
    seenBy: POSTS,
    answers: [],
    until: { is: "seconds", s: 30 },
    says: [],
    silences: "everybody",
    cutsPanels: true,
  },
  lightning: {
    about: "aircraft",
    wrong: NOTHING,
    seenBy: POSTS,
    says: [
      {
        from: ["supervisor", "fireGuard", "groundPower", "cockpit"],
        say: () => ({ type: "recordFlash", miles: 3 }),
      },
    ],
    answers: ["hold"],
    until: { is: "seconds", s: 5 },
    silences: "nobody",
  },
};
