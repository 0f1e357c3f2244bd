import { describe, expect, it } from "vitest";
import { type Action, actionSchema } from "../../shared/protocol/commands.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import { SIGNAL_KINDS, type SignalKind } from "../../shared/protocol/signals.ts";
import { LIVE_STAGES, type Stage, stageAfter } from "../../shared/protocol/stages.ts";
import { decide } from "../../shared/session/decide.ts";
import type { SessionState } from "../../shared/session/state.ts";
import { CREW, ed, given, START } from "./given.ts";

// Written from the rules of the job, not from the program: C cockpit, F fire guard, G ground power, S supervisor, O an
// observer; then the first and the last stage in which it is allowed.
const SIGNALS: Readonly<Record<SignalKind, [who: string, from: Stage, to: Stage]>> = {
  readyToStart: ["C", "starting", "starting"],
  clearToStart: ["S", "starting", "starting"],
  revokeClearance: ["CFGSO", "plan", "release"],
  cranking: ["CFGSO", "plan", "release"],
  caught: ["C", "plan", "release"],
  started: ["C", "plan", "release"],
  startAbandoned: ["C", "plan", "release"],
  shutDown: ["C", "plan", "release"],
  turning: ["CFGSO", "plan", "release"],
  guardInPlace: ["F", "secure", "release"],
  guardAway: ["CFGSO", "plan", "release"],
  arcClear: ["F", "secure", "release"],
  arcNotClear: ["CFGSO", "plan", "release"],
  peopleAtAircraft: ["CFGSO", "plan", "release"],
  hold: ["CFGSO", "plan", "release"],
  release: ["CFGSO", "plan", "release"],
  cut: ["CFGSO", "plan", "release"],
  cutAll: ["CFGSO", "plan", "release"],
  resetCut: ["CS", "plan", "release"],
  fire: ["CFGSO", "plan", "release"],
  fireOut: ["CFS", "plan", "release"],
  connectPower: ["CGS", "powerUp", "warmUp"],
  powerConnected: ["G", "powerUp", "warmUp"],
  disconnectPower: ["CGS", "secure", "release"],
  powerDisconnected: ["CFGSO", "plan", "release"],
  insertChocks: ["CGS", "secure", "release"],
  chocksIn: ["G", "secure", "release"],
  removeChocks: ["CGS", "warmUp", "release"],
  chocksOut: ["CFGSO", "plan", "release"],
  clearOfAircraft: ["G", "secure", "release"],
  handlePropeller: ["CFG", "secure", "starting"],
  propellerStill: ["CFGS", "brief", "release"],
  propellerFree: ["FG", "secure", "release"],
  brakesSet: ["C", "secure", "release"],
  brakesReleased: ["CFGSO", "plan", "release"],
  allClear: ["S", "warmUp", "release"],
  negative: ["CFGSO", "plan", "release"],
};
type Other = Exclude<Action["type"], "send">;
const OTHERS: Readonly<Record<Other, [who: string, from: Stage, to: Stage]>> = {
  answer: ["CFGS", "plan", "release"],
  reading: ["CG", "plan", "release"],
  recordCheck: ["CFGS", "plan", "release"],
  claimPost: ["CFGSO", "plan", "release"],
  leavePost: ["CFGS", "plan", "release"],
  offerPost: ["CFGS", "plan", "release"],
  acceptPost: ["CFGSO", "plan", "release"],
  vacatePost: ["S", "plan", "release"],
  confirmBrief: ["CFGS", "brief", "release"],
  amendPlan: ["CS", "plan", "release"],
  advance: ["CS", "plan", "release"],
  abandon: ["CS", "plan", "release"],
  acknowledgeAlert: ["CFGS", "plan", "release"],
  shelveAlert: ["CFGS", "plan", "release"],
  present: ["CFGS", "plan", "release"],
  delivered: ["CFGS", "plan", "release"],
  giveVoltTrace: ["G", "powerUp", "warmUp"],
  override: ["CS", "starting", "starting"],
  countBlades: ["FG", "secure", "starting"],
  recordWeather: ["CS", "plan", "release"],
  recordFlash: ["CFGSO", "plan", "release"],
  recordRunUp: ["C", "warmUp", "warmUp"],
  writeDefect: ["CFGS", "plan", "release"],
  closeDefect: ["S", "plan", "release"],
  startDrill: ["CFGS", "plan", "release"],
  drillStep: ["CFGS", "plan", "release"],
  endDrill: ["CS", "plan", "release"],
};

const LETTER: Readonly<Record<Post, string>> = {
  cockpit: "C",
  fireGuard: "F",
  groundPower: "G",
  supervisor: "S",
};
const CHECK_OF: Readonly<Record<Post, string>> = {
  cockpit: "battery",
  fireGuard: "bottles",
  groundPower: "cart",
  supervisor: "walkRound",
};
const ACTORS: readonly (Post | null)[] = [...POSTS, null];

const standing = new Map<Stage, SessionState>();
function at(stage: Stage): SessionState {
  const known = standing.get(stage) ?? given().manned().upTo(stage).state;
  standing.set(stage, known);
  return known;
}

function ofType(type: Other, post: Post | null, stage: Stage): unknown {
  const own = post ?? "cockpit";
  switch (type) {
    case "answer":
      return { type, signal: 1, answer: "received" };
    case "reading":
      return { type, gauge: "busVolts", reading: { value: 25, unit: "V" } };
    case "recordCheck":
      return { type, check: CHECK_OF[own], good: true };
    case "claimPost":
    case "leavePost":
    case "acceptPost":
      return { type, post: own };
    case "offerPost":
      return { type, post: own, to: "fay" };
    case "vacatePost":
      return { type, post: own === "groundPower" ? "fireGuard" : "groundPower", reason: "gone" };
    case "confirmBrief":
      return { type };
    case "amendPlan":
      return { type, order: [1, 2, 3, 4], reason: "wind" };
    case "advance":
      return { type, to: stageAfter(stage) };
    case "abandon":
      return { type, reason: "weather" };
    case "acknowledgeAlert":
      return { type, alert: 1 };
    case "shelveAlert":
      return { type, alert: 1, minutes: 5 };
    case "giveVoltTrace":
      return {
        type,
        samples: [
          [0, 28],
          [20, 28],
        ],
        cranking: [],
        endedAgoMs: 0,
      };
    case "recordFlash":
      return { type, thunderAfterS: 60 };
    case "recordRunUp":
      return { type, engine: 1, item: "magnetoBoth", reading: { value: 1700, unit: "rpm" } };
    case "present":
      return { type };
    case "delivered":
      return { type, signals: [1] };
    case "override":
      return { type, condition: "guardInPlace", engine: 3, reason: "short of hands" };
    case "countBlades":
      return { type, engine: 3, blades: 9, resistance: false };
    case "recordWeather":
      return { type, windKt: 5 };
    case "writeDefect":
      return { type, words: "seeps", barsStart: false };
    case "closeDefect":
      return { type, defect: "d1", reason: "wiped" };
    case "startDrill":
      return { type, drill: "smoke" };
    case "drillStep":
      return { type, run: 1, step: 0, done: true };
    case "endDrill":
      return { type, run: 1, outcome: "nothing found" };
  }
}

/** Returns the table's refusal; null when it allows the action. */
function tableSays(action: Action, post: Post | null, stage: Stage): string | null {
  const person = post ? CREW[post] : ed;
  const { refusal } = decide(at(stage), action, { now: START + 3_600_000, person, post });
  return refusal?.reason === "wrongPost" || refusal?.reason === "wrongStage" ? refusal.reason : null;
}

function expected([who, from, to]: [string, Stage, Stage], post: Post | null, stage: Stage): string | null {
  if (!who.includes(post ? LETTER[post] : "O")) return "wrongPost";
  const [a, b, here] = [from, to, stage].map((s) => LIVE_STAGES.indexOf(s)) as [number, number, number];
  return here < a || here > b ? "wrongStage" : null;
}

const cells = LIVE_STAGES.flatMap((stage) => ACTORS.map((post) => ({ stage, post })));

describe("who may do what, and when", () => {
  it.each(SIGNAL_KINDS)("[REF-3] signal %s, every post at every stage", (kind) => {
    const action = actionSchema.parse({ type: "send", kind, engine: 3 });
    const found = cells.map((c) => ({ ...c, is: tableSays(action, c.post, c.stage) }));
    expect(found).toEqual(cells.map((c) => ({ ...c, is: expected(SIGNALS[kind], c.post, c.stage) })));
  });

  it.each(Object.keys(OTHERS) as Other[])("[REF-3] action %s, every post at every stage", (type) => {
    const found = cells.map((c) => {
      const action = actionSchema.parse(ofType(type, c.post, c.stage));
      return { ...c, is: tableSays(action, c.post, c.stage) };
    });
    expect(found).toEqual(cells.map((c) => ({ ...c, is: expected(OTHERS[type], c.post, c.stage) })));
  });

  it("[REF-3] a wrong post is told who may, a wrong stage when", () => {
    const story = given().manned();
    expect(story.send("groundPower", "clearToStart", { engine: 1 }).refusal).toEqual({
      reason: "wrongPost",
      posts: ["supervisor"],
    });
    expect(story.send("supervisor", "clearToStart", { engine: 1 }).refusal).toEqual({
      reason: "wrongStage",
      stages: ["starting"],
      found: "plan",
    });
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
    ...["hold", "cut", "cutAll", "fire", "turning"],
    ...["cranking", "revokeClearance", "guardAway", "arcNotClear", "peopleAtAircraft"],
    ...["powerDisconnected", "chocksOut", "brakesReleased", "negative"],
  ];
  it.each(SIGNAL_KINDS)(
    "[SIG-11, SIG-12, SIG-13, SIG-17] %s seen given by hand, every giver and recorder",
    (kind) => {
      const state = at(SIGNALS[kind][1] === "plan" ? "starting" : SIGNALS[kind][1]);
      for (const recorder of POSTS) {
        for (const seenFrom of POSTS) {
          const action = actionSchema.parse({ type: "send", kind, engine: 3, channel: "hand", seenFrom });
          const person = CREW[recorder];
          const { refusal } = decide(state, action, { now: START + 3_600_000, person, post: recorder });
          const not = refusal?.reason === "notWitnessable";
          if (ALWAYS.includes(kind)) expect(refusal).toBeUndefined();
          else {
            const may = [...WITNESSED, ...MORE].includes(kind);
            const gives = SIGNALS[kind][0].includes(LETTER[seenFrom]) && seenFrom !== recorder;
            expect({ recorder, seenFrom, not }).toEqual({ recorder, seenFrom, not: !(may && gives) });
          }
        }
      }
    },
  );
});
