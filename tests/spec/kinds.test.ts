import { describe, expect, it } from "vitest";
import { type Action, actionSchema } from "../../shared/protocol/commands.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import { SIGNAL_KINDS, type SignalKind } from "../../shared/protocol/signals.ts";
import type { Stage } from "../../shared/protocol/stages.ts";
import { decide } from "../../shared/session/decide.ts";
import { saidAs } from "../../shared/session/saidAs.ts";
import type { SaidClass } from "../../shared/signals/definition.ts";
import { at as atLeave, expectOver, expectRefusedLate, expectTaken, isRefusedInTime } from "./everyCell.ts";
import { type Allowed, at, cells, expected, LETTER, tableSays } from "./everyPost.ts";
import { CREW, START } from "./given.ts";

// Written from the rules of the job, not from the program: whether it is a stop, or lowers or raises confidence; C
// cockpit, F fire guard, G ground power, S supervisor, O an observer; the first and the last stage of its use.
const KINDS: Readonly<Record<SignalKind, [SaidClass, who: string, from: Stage, to: Stage]>> = {
  readyToStart: ["raises", "C", "starting", "starting"],
  clearToStart: ["raises", "S", "starting", "starting"],
  revokeClearance: ["lowers", "CFGSO", "plan", "release"],
  cranking: ["lowers", "CFGSO", "plan", "release"],
  caught: ["raises", "C", "plan", "release"],
  started: ["raises", "C", "plan", "release"],
  startAbandoned: ["raises", "C", "plan", "release"],
  shutDown: ["raises", "C", "plan", "release"],
  turning: ["stop", "CFGSO", "plan", "release"],
  guardInPlace: ["raises", "F", "secure", "release"],
  guardAway: ["lowers", "CFGSO", "plan", "release"],
  arcClear: ["raises", "F", "secure", "release"],
  arcNotClear: ["lowers", "CFGSO", "plan", "release"],
  peopleAtAircraft: ["lowers", "CFGSO", "plan", "release"],
  hold: ["stop", "CFGSO", "plan", "release"],
  release: ["raises", "CFGSO", "plan", "release"],
  cut: ["stop", "CFGSO", "plan", "release"],
  cutAll: ["stop", "CFGSO", "plan", "release"],
  resetCut: ["raises", "CS", "plan", "release"],
  fire: ["stop", "CFGSO", "plan", "release"],
  fireAt: ["lowers", "CFGSO", "plan", "release"],
  disregard: ["raises", "CFGSO", "plan", "release"],
  fireOut: ["raises", "CFS", "plan", "release"],
  connectPower: ["raises", "CGS", "powerUp", "warmUp"],
  powerConnected: ["raises", "G", "powerUp", "warmUp"],
  disconnectPower: ["raises", "CGS", "secure", "release"],
  powerDisconnected: ["lowers", "CFGSO", "plan", "release"],
  insertChocks: ["raises", "CGS", "secure", "release"],
  chocksIn: ["raises", "G", "secure", "release"],
  removeChocks: ["raises", "CGS", "warmUp", "release"],
  chocksOut: ["lowers", "CFGSO", "plan", "release"],
  clearOfAircraft: ["raises", "G", "secure", "release"],
  handlePropeller: ["raises", "CFG", "secure", "starting"],
  propellerStill: ["raises", "CFGS", "brief", "release"],
  propellerFree: ["raises", "FG", "secure", "release"],
  brakesSet: ["raises", "C", "secure", "release"],
  brakesReleased: ["lowers", "CFGSO", "plan", "release"],
  allClear: ["raises", "S", "warmUp", "release"],
  negative: ["lowers", "CFGSO", "plan", "release"],
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
    expect(saidAs(atLeave("starting", false), action)).toBe(is);
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
