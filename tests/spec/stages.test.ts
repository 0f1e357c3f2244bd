import { describe, expect, it } from "vitest";
import { POSTS } from "../../shared/protocol/posts.ts";
import { LIVE_STAGES, STAGES, type Stage, stageAfter } from "../../shared/protocol/stages.ts";
import { evolve } from "../../shared/session/evolve.ts";
import { act } from "../../shared/session/step.ts";
import { ada, CREW, given, purposeAt, replay, type Say, type Story, towards } from "./given.ts";

const missing = (story: Story) => story.last.refusal?.missing;
const advance = (story: Story, to: Stage) => story.say("supervisor", { type: "advance", to });

describe("stages", () => {
  it("[STG-1] a session begins with its plan and is planned once", () => {
    const story = given().manned();
    const [planned, claimed] = story.log;
    if (!planned || !claimed) throw new Error("the story has begun");
    expect(() => evolve(null, claimed)).toThrow("begins with its plan");
    expect(() => evolve(story.state, { ...planned, seq: story.state.seq + 1 })).toThrow("planned once");
    expect(replay([planned]).type.id).toBe("four");
  });

  it.each(LIVE_STAGES)("[STG-2] from %s only the next stage is reached", (stage) => {
    const story = towards(stage).manned().upTo(stage);
    for (const to of STAGES.filter((s) => s !== stageAfter(stage, purposeAt(stage)))) {
      expect(advance(story, to).refusal?.reason).toBe("wrongStage");
    }
    expect(story.state.stage).toBe(stage);
  });

  it.each(["fireGuard", "groundPower"] as const)("[STG-3] %s may not advance, amend or abandon", (post) => {
    const story = given().manned();
    const actions: Say[] = [
      { type: "advance", to: "brief" },
      { type: "amendPlan", order: [1] },
      { type: "abandon", reason: "x" },
    ];
    for (const action of actions) expect(story.say(post, action).refusal?.reason).toBe("wrongPost");
  });

  it.each(LIVE_STAGES)("[STG-4] %s is not left while a hold stands", (stage) => {
    const story = towards(stage).manned().upTo(stage);
    story.send("fireGuard", "hold");
    const to = stageAfter(stage, purposeAt(stage));
    if (to === null) throw new Error("a live stage has a next one");
    expect(advance(story, to).refusal?.reason).toBe("stopOpen");
  });

  it("[STG-5, STG-12] the brief asks for every needed post and its confirmation", () => {
    const story = given()
      .manned(["cockpit", "supervisor"])
      .say("supervisor", { type: "advance", to: "brief" });
    expect(story.refusal).toBeUndefined();
    const told = given().manned(["cockpit", "supervisor"]);
    advance(told, "brief");
    told.say("cockpit", { type: "confirmBrief" });
    advance(told, "secure");
    expect(missing(told)).toEqual(["post:fireGuard", "briefed:supervisor", "post:groundPower"]);
  });

  it("[STG-5] on batteries ground power is not needed unless the type asks for it", () => {
    const story = given({ powerSource: "batteries" }).manned(["cockpit", "fireGuard", "supervisor"]);
    advance(story, "brief");
    for (const post of ["cockpit", "fireGuard", "supervisor"] as const)
      story.say(post, { type: "confirmBrief" });
    expect(advance(story, "secure").refusal).toBeUndefined();
  });

  it("[STG-17] the brief is not left while another session of the aircraft is under way, and is afterwards", () => {
    const story = given().manned().upTo("brief");
    for (const post of POSTS) story.say(post, { type: "confirmBrief" });
    story.elsewhere = "K7M2";
    expect(advance(story, "secure").refusal).toEqual({ reason: "aircraftBusy", found: "K7M2" });
    expect(story.state.stage).toBe("brief");
    story.elsewhere = undefined;
    expect(advance(story, "secure").refusal).toBeUndefined();
    story.elsewhere = "K7M2";
    expect(advance(story, "powerUp").refusal?.reason).toBe("requirementsUnmet");
  });

  it("[STG-6, STG-11, STG-12] secure asks for chocks, brakes and its checks", () => {
    const story = given().upTo("secure");
    advance(story, "powerUp");
    expect(missing(story)).toEqual([
      "condition:chocksIn",
      "condition:brakesSet",
      "check:bottles",
      "check:walkRound",
    ]);
    story.brakes(599);
    story.send("groundPower", "chocksIn");
    story.say("supervisor", { type: "recordCheck", check: "walkRound", good: false });
    story.say("fireGuard", { type: "recordCheck", check: "bottles", good: true });
    advance(story, "powerUp");
    expect(missing(story)).toEqual(["condition:brakesSet", "check:walkRound"]);
  });

  it("[STG-7, STG-11] ground power asks for a known source and the cart's check", () => {
    const story = given().upTo("groundPower");
    advance(story, "starting");
    expect(missing(story)).toEqual(["condition:groundPowerKnown", "check:cart"]);
    story.power(25.9);
    advance(story, "starting");
    expect(missing(story)).toEqual(["condition:groundPowerKnown", "check:cart"]);
  });

  it("[STG-7, STG-11] on batteries the source is the plan itself, and the cart's check does not count", () => {
    const story = given({ powerSource: "batteries" }).upTo("groundPower");
    expect(advance(story, "starting").refusal).toBeUndefined();
  });

  it("[STG-8] starting asks for every engine of the order", () => {
    const story = given({ order: [3, 2] }).upTo("starting");
    story.started(3);
    advance(story, "warmUp");
    expect(missing(story)).toEqual(["engine:2"]);
    story.running(2);
    advance(story, "warmUp");
    expect(missing(story)).toEqual(["engine:2"]);
  });

  it("[STG-9] warm-up asks for every gate of every turning engine, judged by the coldest, and for power off", () => {
    const story = given({ order: [3, 2] }).upTo("warmUp");
    story.reading("oilTemp", 3, 40, "degC");
    story.reading("oilTemp", 2, 39, "degC");
    advance(story, "release");
    expect(missing(story)).toEqual(["gate:2:oilTemp", "powerOff"]);
    story.powerOff();
    story.send("cockpit", "shutDown", { engine: 2 });
    expect(advance(story, "release").refusal).toBeUndefined();
  });

  it("[STG-10] release asks for chocks out and the all clear answered", () => {
    const story = given({ order: [3] }).upTo("release");
    advance(story, "closed");
    expect(missing(story)).toEqual(["chocksOut", "allClear"]);
    story.brakes();
    story.send("cockpit", "removeChocks");
    story.send("groundPower", "chocksOut");
    story.send("supervisor", "allClear");
    advance(story, "closed");
    expect(missing(story)).toEqual(["allClear"]);
    story.heard();
    expect(advance(story, "closed").refusal).toBeUndefined();
  });

  it.each(LIVE_STAGES)(
    "[STG-13] from %s a session is abandoned with its reason, unless an engine turns",
    (stage) => {
      const story = towards(stage, { order: [3] })
        .manned()
        .upTo(stage);
      // Before it stands on its place, an aircraft that comes back may go elsewhere (RTN-12).
      if (stage === "arrival") story.send("supervisor", "onStand");
      story.send("cockpit", "turning", { engine: 4 });
      expect(story.say("cockpit", { type: "abandon", reason: "storm" }).refusal).toMatchObject({
        reason: "wrongEngineState",
      });
      for (const n of [3, 4]) story.send("cockpit", "shutDown", { engine: n });
      expect(story.say("cockpit", { type: "abandon", reason: "storm" }).refusal).toBeUndefined();
      expect(story.state.stage).toBe("abandoned");
      expect(story.told("stageReached").at(-1)?.reason).toBe("storm");
    },
  );

  it.each(["closed", "abandoned"] as const)(
    "[STG-14] a session that is %s takes nothing, and time adds nothing",
    (end) => {
      const story = given({ order: [3] }).upTo(end === "closed" ? "closed" : "starting");
      if (end === "abandoned") {
        story.requested(3);
        story.say("cockpit", { type: "abandon", reason: "storm" });
      }
      const { seq } = story.state;
      for (const kind of ["hold", "fire", "cutAll", "readyToStart", "release"] as const) {
        expect(story.send("cockpit", kind).refusal?.reason).toBe("sessionOver");
      }
      story.restart();
      story.wait(4000);
      const mark = { id: "x", digest: "x", clientAt: 0 };
      expect(act(story.state, { type: "claimPost", post: "cockpit" }, ada, mark, story.now).events).toEqual(
        [],
      );
      expect(story.state.seq).toBe(seq);
    },
  );

  it("[STG-15] the order is amended to engines of the type, each once", () => {
    const story = given().manned();
    for (const order of [[1, 1], [5], [1, 2, 3, 4, 5]]) {
      expect(story.say("cockpit", { type: "amendPlan", order }).refusal?.reason).toBe("badOrder");
    }
    expect(story.say("cockpit", { type: "amendPlan", order: [2] }).refusal).toBeUndefined();
    expect(story.state.order).toEqual([2]);
  });

  it("[STG-15] an amendment from the brief on needs a reason, opens a new epoch and keeps each turning engine", () => {
    const story = given().upTo("starting").started(3);
    const { epoch } = story.state;
    expect(story.say("cockpit", { type: "amendPlan", order: [3, 1] }).refusal?.reason).toBe("missingFigure");
    expect(story.say("cockpit", { type: "amendPlan", order: [4, 1], reason: "wind" }).refusal?.reason).toBe(
      "badOrder",
    );
    expect(
      story.say("cockpit", { type: "amendPlan", order: [3, 1], reason: "wind" }).refusal,
    ).toBeUndefined();
    expect(story.state.epoch).toBe(epoch + 1);
  });

  it("[STG-3] cockpit and supervisor both advance", () => {
    for (const post of ["cockpit", "supervisor"] as const) {
      const story = given().manned();
      expect(story.does(CREW[post], { type: "advance", to: "brief" }).refusal).toBeUndefined();
    }
  });

  it.each(["warmUp", "release"] as const)(
    "[STG-16] from %s the session goes back to starting for an engine that quit",
    (stage) => {
      const story = given().manned().upTo(stage);
      expect(advance(story, "starting").refusal?.reason).toBe("wrongStage");
      story.send("cockpit", "shutDown", { engine: 3 });
      story.send("fireGuard", "hold");
      expect(advance(story, "starting").refusal?.reason).toBe("stopOpen");
      story.send("fireGuard", "release", { ref: story.state.holds[0]?.id ?? 0 });
      expect(advance(story, "starting").refusal).toBeUndefined();
      expect(story.state.stage).toBe("starting");
    },
  );

  it("[STG-13] no session is abandoned while a fire stands", () => {
    const story = given().manned().upTo("secure");
    story.send("fireGuard", "fire", { place: "groundEquipment" });
    const abandoned = story.say("supervisor", { type: "abandon", reason: "rain" });
    expect(abandoned.refusal?.reason).toBe("stopOpen");
    expect(story.state.stage).toBe("secure");
  });
});
