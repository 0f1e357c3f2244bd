import { describe, expect, it } from "vitest";
import { type Action, actionSchema } from "../../shared/protocol/commands.ts";
import type { Post } from "../../shared/protocol/posts.ts";
import { type Stage, stageAfter } from "../../shared/protocol/stages.ts";
import { type Allowed, cells, expected, tableSays } from "./everyPost.ts";
import { given, purposeAt } from "./given.ts";

// Written from the rules of the job, not from the program. `everyPost.ts` names the letters.
type Other = Exclude<Action["type"], "send">;
const OTHERS: Readonly<Record<Other, Allowed>> = {
  answer: ["CFGS", "plan", "stowing"],
  reading: ["CG", "plan", "stowing"],
  recordCheck: ["CFGS", "plan", "stowing"],
  // A second person may answer or read out an item; who may is decided by the card (CRD-9).
  answerCard: ["CFGSO", "plan", "stowing"],
  readCard: ["CFGSO", "plan", "stowing"],
  claimPost: ["CFGSO", "plan", "stowing"],
  leavePost: ["CFGS", "plan", "stowing"],
  offerPost: ["CFGS", "plan", "stowing"],
  acceptPost: ["CFGSO", "plan", "stowing"],
  vacatePost: ["S", "plan", "stowing"],
  confirmBrief: ["CFGS", "brief", "stowing"],
  amendPlan: ["CS", "plan", "stowing"],
  advance: ["CS", "plan", "stowing"],
  abandon: ["CS", "plan", "stowing"],
  acknowledgeAlert: ["CFGS", "plan", "stowing"],
  shelveAlert: ["CFGS", "plan", "stowing"],
  present: ["CFGS", "plan", "stowing"],
  delivered: ["CFGS", "plan", "stowing"],
  showEquipment: ["CFGS", "plan", "stowing"],
  giveVoltTrace: ["G", "powerUp", "warmUp"],
  override: ["CS", "starting", "starting"],
  countBlades: ["FG", "secure", "starting"],
  recordWeather: ["CS", "plan", "stowing"],
  recordFlash: ["CFGSO", "plan", "stowing"],
  recordRunUp: ["C", "warmUp", "warmUp"],
  writeDefect: ["CFGS", "plan", "stowing"],
  closeDefect: ["S", "plan", "stowing"],
  startDrill: ["CFGS", "plan", "stowing"],
  drillStep: ["CFGS", "plan", "stowing"],
  endDrill: ["CS", "plan", "stowing"],
};

const CHECK_OF: Readonly<Record<Post, string>> = {
  cockpit: "battery",
  fireGuard: "bottles",
  groundPower: "cart",
  supervisor: "walkRound",
};
function ofType(type: Other, post: Post | null, stage: Stage): unknown {
  const own = post ?? "cockpit";
  switch (type) {
    case "answer":
      return { type, signal: 1, answer: "received" };
    case "reading":
      return { type, gauge: "busVolts", reading: { value: 25, unit: "V" } };
    case "recordCheck":
      return { type, check: CHECK_OF[own], good: true };
    case "answerCard":
      return { type, item: "batteries", good: true };
    case "readCard":
      return { type, item: "batteries" };
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
      return { type, to: stageAfter(stage, purposeAt(stage)) };
    case "abandon":
      return { type, reason: "weather" };
    case "acknowledgeAlert":
      return { type, alert: 1 };
    case "shelveAlert":
      return { type, alert: 1, minutes: 5 };
    case "showEquipment":
      return { type, label: "GPU-1" };
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

describe("who may do what, and when", () => {
  it.each(Object.keys(OTHERS) as Other[])("[REF-3] action %s, every post at every stage", (type) => {
    const found = cells.map((c) => {
      const action = actionSchema.parse(ofType(type, c.post, c.stage));
      return { ...c, is: tableSays(action, c.post, c.stage) };
    });
    expect(found).toEqual(cells.map((c) => ({ ...c, is: expected(OTHERS[type], c.post, c.stage) })));
  });

  it("[REF-3] a refusal names the posts that may, or the stages in which it is allowed", () => {
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
});
