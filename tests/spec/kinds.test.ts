import { describe, expect, it } from "vitest";
import { type Action, actionSchema } from "../../shared/protocol/commands.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import { SIGNAL_KINDS, type SignalKind } from "../../shared/protocol/signals.ts";
import { decide } from "../../shared/session/decide.ts";
import { judgedAs } from "../../shared/session/judgedAs.ts";
import type { SaidClass } from "../../shared/signals/definition.ts";
import { at as atLeave, expectOver, expectRefusedLate, expectTaken, isRefusedInTime } from "./everyCell.ts";
import { type Allowed, at, cells, expected, LETTER, tableSays } from "./everyPost.ts";
import { CREW, START } from "./given.ts";

// Written from the rules of the job, not from the program: whether it is a stop, or lowers or raises confidence; C
// cockpit, F fire guard, G ground power, S supervisor, O an observer; the first and the last stage of its use, and other
// single stages.
const KINDS: Readonly<Record<SignalKind, [SaidClass, ...Allowed]>> = {
  readyToStart: ["raises", "C", "starting", "starting"],
  clearToStart: ["raises", "S", "starting", "starting"],
  revokeClearance: ["lowers", "CFGSO", "plan", "stowing"],
  cranking: ["lowers", "CFGSO", "plan", "stowing"],
  caught: ["raises", "C", "plan", "stowing"],
  started: ["raises", "C", "plan", "stowing"],
  startAbandoned: ["raises", "C", "plan", "stowing"],
  shutDown: ["raises", "C", "plan", "stowing"],
  turning: ["stop", "CFGSO", "plan", "stowing"],
  guardInPlace: ["raises", "F", "secure", "stowing"],
  guardAway: ["lowers", "CFGSO", "plan", "stowing"],
  arcClear: ["raises", "F", "secure", "stowing"],
  arcNotClear: ["lowers", "CFGSO", "plan", "stowing"],
  peopleAtAircraft: ["lowers", "CFGSO", "plan", "stowing"],
  hold: ["stop", "CFGSO", "plan", "stowing"],
  release: ["raises", "CFGSO", "plan", "stowing"],
  cut: ["stop", "CFGSO", "plan", "stowing"],
  cutAll: ["stop", "CFGSO", "plan", "stowing"],
  resetCut: ["raises", "CS", "plan", "stowing"],
  fire: ["stop", "CFGSO", "plan", "stowing"],
  fireAt: ["lowers", "CFGSO", "plan", "stowing"],
  disregard: ["raises", "CFGSO", "plan", "stowing"],
  fireOut: ["raises", "CFS", "plan", "stowing"],
  connectPower: ["raises", "CGS", "powerUp", "warmUp", "arrival", "stopping"],
  powerConnected: ["raises", "G", "powerUp", "warmUp", "arrival", "stopping"],
  disconnectPower: ["raises", "CGS", "secure", "stowing"],
  powerDisconnected: ["lowers", "CFGSO", "plan", "stowing"],
  insertChocks: ["raises", "CGS", "secure", "stowing"],
  chocksIn: ["raises", "G", "secure", "stowing"],
  removeChocks: ["raises", "CGS", "warmUp", "release"],
  chocksOut: ["lowers", "CFGSO", "plan", "stowing"],
  clearOfAircraft: ["raises", "G", "secure", "stowing"],
  handlePropeller: ["raises", "CFG", "secure", "starting", "stowing"],
  propellerStill: ["raises", "CFGS", "brief", "stowing"],
  propellerFree: ["raises", "FG", "secure", "stowing"],
  brakesSet: ["raises", "C", "secure", "stowing"],
  brakesReleased: ["lowers", "CFGSO", "plan", "stowing"],
  onStand: ["raises", "FS", "arrival", "arrival"],
  idleFaster: ["raises", "C", "starting", "warmUp"],
  coolDown: ["raises", "C", "arrival", "stopping"],
  switchesOff: ["raises", "C", "stopping", "stowing"],
  allClear: ["raises", "S", "warmUp", "release"],
  negative: ["lowers", "CFGSO", "plan", "stowing"],
};
const allowedOf = (kind: SignalKind): Allowed => {
  const [, ...allowed] = KINDS[kind];
  return allowed;
};

describe("who may send a signal, and when", () => {
  it.each(SIGNAL_KINDS)("[REF-3] signal %s, every post at every stage", (kind) => {
    const action = actionSchema.parse({ type: "send", kind, engine: 3 });
    const found = cells.map((c) => ({ ...c, is: tableSays(action, c.post, c.stage) }));
    expect(found).toEqual(cells.map((c) => ({ ...c, is: expected(allowedOf(kind), c.post, c.stage) })));
  });

  const WITNESSED = ["readyToStart", "guardInPlace", "arcClear", "connectPower", "powerConnected"];
  const MORE = [
    "disconnectPower",
    "insertChocks",
    "chocksIn",
    "removeChocks",
    "clearOfAircraft",
    "handlePropeller",
    "propellerFree",
  ];
  const ALWAYS = [
    ...["hold", "cut", "cutAll", "fire", "fireAt", "turning"],
    ...["cranking", "revokeClearance", "guardAway", "arcNotClear", "peopleAtAircraft"],
    ...["powerDisconnected", "chocksOut", "brakesReleased", "negative"],
  ];
  it.each(SIGNAL_KINDS)(
    "[SIG-11, SIG-12, SIG-13, SIG-17] %s recorded as a hand signal, for every giver and every recorder",
    (kind) => {
      const state = at(allowedOf(kind)[1] === "plan" ? "starting" : allowedOf(kind)[1]);
      for (const recorder of POSTS) {
        for (const seenFrom of POSTS) {
          const action = actionSchema.parse({ type: "send", kind, engine: 3, channel: "hand", seenFrom });
          const person = CREW[recorder];
          const { refusal } = decide(state, action, { now: START + 3_600_000, person, post: recorder });
          const not = refusal?.reason === "notWitnessable";
          if (ALWAYS.includes(kind)) expect(refusal).toBeUndefined();
          else {
            const may = [...WITNESSED, ...MORE].includes(kind);
            const gives = allowedOf(kind)[0].includes(LETTER[seenFrom]) && seenFrom !== recorder;
            expect({ recorder, seenFrom, not }).toEqual({ recorder, seenFrom, not: !(may && gives) });
          }
        }
      }
    },
  );
});

describe("a signal by every post and nobody, in every stage, in time or late, with and without leave", () => {
  const ALL = SIGNAL_KINDS.map((kind): [SignalKind, SaidClass, Action] => [
    kind,
    KINDS[kind][0],
    actionSchema.parse({ type: "send", kind, engine: 4 }),
  ]);

  it.each(ALL)("[SIG-20] %s %s", (_, is, action) => {
    expect(judgedAs(atLeave("starting", false), action)).toBe(is);
  });

  it.each(ALL.filter(([, is]) => is !== "raises"))("[SIG-17, REF-4] %s is taken", (_, _is, action) =>
    expectTaken(action),
  );

  it.each(ALL.filter(([, is]) => is === "raises"))(
    "[SIG-17] %s is refused when late, and in time to some post in some stage",
    (kind, _is, action) => {
      expectRefusedLate(action);
      expect(isRefusedInTime(action)).toBe(kind !== "release" && kind !== "disregard");
    },
  );

  it.each(ALL)("[SIG-17] %s is not taken by a session that is over", (_, _is, action) => expectOver(action));
});
