import { describe, expect, it } from "vitest";
import { askedOf } from "../../shared/asks/asked.ts";
import { DEFINITIONS, findAll } from "../../shared/conditions/all.ts";
import type { ConditionId } from "../../shared/protocol/conditions.ts";
import { CONDITION_IDS } from "../../shared/protocol/conditions.ts";
import type { Post } from "../../shared/protocol/posts.ts";
import { nextDeadline } from "../../shared/session/deadline.ts";
import { tick } from "../../shared/session/step.ts";
import { bo, di, given, type Story } from "../spec/given.ts";
import { applying, STRICT } from "./types.ts";

const starting = (...more: ConditionId[]) => given({ type: applying(...more) }).upTo("starting");
const answer = (story: Story, id: ConditionId, engine = 3, later = 0) =>
  findAll(story.state, engine, story.now + later).find((r) => r.id === id)?.is;
const counted = (story: Story, engine: number, blades = 9, resistance = false) => {
  story.send("cockpit", "handlePropeller", { engine });
  story.say("groundPower", { type: "countBlades", engine, blades, resistance });
  return story.send("groundPower", "propellerFree", { engine });
};
const found = (story: Story, check: string, good: boolean) => {
  const post = STRICT.checks.find((c) => c.id === check)?.post ?? "cockpit";
  return story.say(post, { type: "recordCheck", check, good });
};

describe("blades counted", () => {
  // The condition is tested alone, because the stage before asks for it too.
  const story_ = () => {
    const story = given({ type: applying("bladesCounted") }).upTo("secure");
    return story;
  };

  it.each([
    [9, false, "yes"],
    [8, false, "no"],
    [20, true, "no"],
    [0, true, "no"],
  ] as const)("[MCN-1, HND-4] %i blades, resistance %s: %s", (blades, resistance, is) => {
    const story = story_();
    expect(answer(story, "bladesCounted")).toBe("unknown");
    counted(story, 3, blades, resistance);
    expect(answer(story, "bladesCounted")).toBe(is);
    expect(answer(story, "bladesCounted", 4)).toBe("unknown");
  });

  it("[MCN-1] goes stale at the type's 30 min, not a millisecond before", () => {
    const story = story_();
    counted(story, 3);
    expect(answer(story, "bladesCounted", 3, 1_799_999)).toBe("yes");
    expect(answer(story, "bladesCounted", 3, 1_800_000)).toBe("stale");
  });

  it("[MCN-1] is met by a run within the interval; a catch uses the count up; no deadline is repeated", () => {
    const story = story_();
    for (const n of [1, 2, 3, 4]) counted(story, n);
    story.upTo("starting").started(3);
    story.send("cockpit", "shutDown", { engine: 3 });
    expect(story.state.engines[2]?.blades).toBeNull();
    expect(answer(story, "bladesCounted", 3, 1_799_999)).toBe("yes");
    expect(answer(story, "bladesCounted", 3, 1_800_000)).toBe("unknown");
    story.wait(600);
    story.send("fireGuard", "propellerStill", { engine: 3 });
    counted(story, 3);
    expect(answer(story, "bladesCounted", 3, 1_799_999)).toBe("yes");
    expect(answer(story, "bladesCounted", 3, 1_800_000)).toBe("stale");
  });

  it("[HND-4] is a no after resistance, however recently the engine ran", () => {
    const story = story_();
    for (const n of [1, 2, 3, 4]) counted(story, n);
    story.upTo("starting").started(3);
    story.send("cockpit", "shutDown", { engine: 3 });
    counted(story, 3, 2, true);
    expect(answer(story, "bladesCounted")).toBe("no");
  });
});

describe("the guard's path", () => {
  const path = (story: Story, n: number) => answer(story, "guardPathClear", n);
  const to = (story: Story, engine: number, walkedAround?: true) =>
    story.send("fireGuard", "guardInPlace", { engine, ...(walkedAround ? { walkedAround } : {}) });

  it("[MCN-2] is a no past a turning engine, also when reported twice, until the guard walked around", () => {
    const story = starting("guardPathClear").started(3).started(4);
    to(story, 2);
    expect(path(story, 2)).toBe("no");
    to(story, 2);
    expect(path(story, 2)).toBe("no");
    to(story, 2, true);
    expect(path(story, 2)).toBe("yes");
  });

  it("[MCN-2] is a yes past engines that do not turn", () => {
    const story = starting("guardPathClear");
    to(story, 4);
    to(story, 1);
    expect(path(story, 1)).toBe("yes");
    expect(path(story, 2)).toBe("unknown");
  });

  it("[MCN-2] does not become safe when the guard goes away first, or when another guard comes", () => {
    const story = starting("guardPathClear").started(3);
    story.send("fireGuard", "guardAway");
    to(story, 1);
    expect(path(story, 1)).toBe("no");
    to(story, 1, true);
    expect(path(story, 1)).toBe("yes");
    story.does(bo, { type: "leavePost", post: "fireGuard" });
    story.does(bo, { type: "claimPost", post: "fireGuard" });
    to(story, 1);
    expect(path(story, 1)).toBe("no");
  });
});

describe("conditions that stand on a check", () => {
  it.each([
    ["extinguisherChecked", "extinguisher", null],
    ["areaChecked", "area", 3_600_000],
    ["fuellingClear", "fuelling", 3_600_000],
  ] as const)("[MCN-3] %s on %s, fresh for %s ms", (id, check, fresh) => {
    const story = starting(id);
    expect(answer(story, id)).toBe("unknown");
    found(story, check, false);
    expect(answer(story, id)).toBe("no");
    found(story, check, true);
    expect(answer(story, id)).toBe("yes");
    expect(answer(story, id, 3, (fresh ?? 86_400_000) - 1)).toBe("yes");
    expect(answer(story, id, 3, fresh ?? 86_400_000)).toBe(fresh === null ? "yes" : "stale");
  });

  it("[MCN-4] wind and gust are met at their limits, not met above them, and stale after an hour", () => {
    const story = starting("windWithinLimits");
    const wind = (windKt: number, gustKt?: number) => {
      story.say("supervisor", { type: "recordWeather", windKt, ...(gustKt === undefined ? {} : { gustKt }) });
      return answer(story, "windWithinLimits");
    };
    expect(answer(story, "windWithinLimits")).toBe("unknown");
    expect(wind(30, 40)).toBe("yes");
    expect(wind(30.5, 40)).toBe("no");
    expect(wind(30, 40.5)).toBe("no");
    expect(wind(30)).toBe("yes");
    expect(answer(story, "windWithinLimits", 3, 3_599_999)).toBe("yes");
    expect(answer(story, "windWithinLimits", 3, 3_600_000)).toBe("stale");
  });

  it("[MCN-6] training is a no from a person's date on; a person without a date does not count", () => {
    const story = given({ type: applying("postsCurrent") }).upTo("starting");
    expect(answer(story, "postsCurrent")).toBe("yes");
    story.does(bo, { type: "leavePost", post: "fireGuard" });
    story.does({ ...bo, currentUntil: story.now + 1_000 }, { type: "claimPost", post: "fireGuard" });
    expect(answer(story, "postsCurrent", 3, 999)).toBe("yes");
    expect(answer(story, "postsCurrent", 3, 1_000)).toBe("no");
  });
});

describe("defects", () => {
  it("[DEF-1, MCN-5] bar their engine, or every engine, or none; the supervisor closes them", () => {
    const story = starting("noBarringDefect");
    const write = (barsStart: boolean, engine?: number) =>
      story.say("fireGuard", {
        type: "writeDefect",
        words: "oil leak",
        barsStart,
        ...(engine === undefined ? {} : { engine }),
      });
    write(false, 3);
    expect(answer(story, "noBarringDefect", 3)).toBe("yes");
    write(true, 3);
    expect([3, 4].map((n) => answer(story, "noBarringDefect", n))).toEqual(["no", "yes"]);
    write(true);
    expect([3, 4].map((n) => answer(story, "noBarringDefect", n))).toEqual(["no", "no"]);
    expect(write(true, 5).refusal?.reason).toBe("noSuchEngine");
    const close = (post: "cockpit" | "supervisor", defect: string) =>
      story.say(post, { type: "closeDefect", defect, reason: "tightened" }).refusal?.reason;
    expect(close("cockpit", story.state.defects[1]?.id ?? "")).toBe("wrongPost");
    for (const { id, barsStart } of story.state.defects)
      if (barsStart) expect(close("supervisor", id)).toBeUndefined();
    expect(close("supervisor", "none")).toBe("nothingOpen");
    expect(answer(story, "noBarringDefect", 3)).toBe("yes");
    expect(story.state.defects).toHaveLength(1);
  });

  it("[DEF-1, CLR-6] end a clearance at once when they are written during it", () => {
    const story = starting("noBarringDefect");
    story.cleared(3);
    story.say("groundPower", { type: "writeDefect", words: "fuel drips", engine: 3, barsStart: true });
    expect(story.told("clearanceVoid")).toMatchObject([
      { cause: "condition", unmet: [{ id: "noBarringDefect" }] },
    ]);
  });
});

describe("what the crew's leave stands on", () => {
  const connect = (story: Story) => story.send("cockpit", "connectPower");

  it("[MCN-3, MCN-7] allows connecting only after a fresh report that the cart's output is off", () => {
    const story = given({ type: applying("cartOutputOff") }).upTo("powerUp");
    expect(connect(story).refusal?.unmet?.map((u) => u.id)).toEqual(["cartOutputOff"]);
    found(story, "cartOutputOff", true);
    story.unseen(900_000);
    expect(connect(story).refusal?.unmet?.map((u) => u.is)).toEqual(["stale"]);
    found(story, "cartOutputOff", true);
    story.unseen(899_999);
    expect(connect(story).refusal).toBeUndefined();
    expect(story.volts(28).refusal).toBeUndefined();
  });

  it("[MCN-7] ends the leave to connect when the output is reported on again, whoever asked for the leave", () => {
    const story = given({ type: applying("cartOutputOff") }).upTo("powerUp");
    found(story, "cartOutputOff", true);
    connect(story);
    found(story, "cartOutputOff", false);
    expect(story.state.authorities.connectPower).toBeNull();
    expect(story.volts(28).refusal?.reason).toBe("noAuthority");
  });

  it("[MCN-7, SIG-12] cannot be passed by a witnessed signal, or by ground power's own word", () => {
    const story = given({ type: applying("cartOutputOff") }).upTo("powerUp");
    story.send("groundPower", "connectPower", { channel: "hand", seenFrom: "cockpit" });
    expect(story.state.authorities.connectPower).toBeNull();
    expect(story.send("groundPower", "connectPower").refusal?.reason).toBe("conditionsUnmet");
    expect(story.volts(28).refusal?.reason).toBe("noAuthority");
  });

  it("[MCN-3, MCN-7] allows disconnecting only while generators carry the load, and not after the engine with a generator stopped", () => {
    const story = starting("generatorsCarry").started(3);
    const off = () => story.send("cockpit", "disconnectPower");
    expect(off().refusal?.unmet?.map((u) => u.id)).toEqual(["generatorsCarry"]);
    found(story, "generatorsCarry", true);
    expect(off().refusal).toBeUndefined();
    found(story, "generatorsCarry", false);
    story.send("groundPower", "powerDisconnected");
    expect(story.state.groundPower).toMatchObject({ is: "off", lost: true });
  });

  it("[MCN-7] allows disconnecting while no engine turns, because the aircraft is meant to lose power", () => {
    const story = starting("generatorsCarry");
    expect(story.send("cockpit", "disconnectPower").refusal).toBeUndefined();
    expect(story.send("groundPower", "powerDisconnected").refusal).toBeUndefined();
  });

  it("[MCN-7] allows chocks out only while both inboard engines are stopped, if the type says so", () => {
    const story = given({ type: applying("inboardStopped"), order: [3, 4] }).upTo("release");
    const out = () => story.send("cockpit", "removeChocks");
    story.brakes();
    expect(out().refusal?.unmet?.map((u) => [u.id, u.found])).toEqual([["inboardStopped", "3"]]);
    story.send("cockpit", "shutDown", { engine: 3 });
    expect(out().refusal).toBeUndefined();
    story.brakes(100);
    expect(story.state.authorities.removeChocks).toBeNull();
  });
});

describe("chocks behind inboard propellers", () => {
  const asked = (story: Story, post: Post) =>
    askedOf(story.state, post, story.now).map((a) => [a.say, a.engine] as const);
  const released = () => given({ type: applying("inboardStopped") }).upTo("release");

  it("[MCN-7] the cockpit is asked to shut the inboard engines down once nothing else keeps the chocks in", () => {
    const story = released().wait(700);
    expect(asked(story, "cockpit")).toContainEqual(["brakesSet", null]);
    expect(asked(story, "cockpit").map(([say]) => say)).not.toContain("inboardTurns");
    story.brakes();
    for (const n of [2, 3]) {
      expect(asked(story, "cockpit")).toContainEqual(["inboardTurns", n]);
      story.send("cockpit", "shutDown", { engine: n });
    }
    expect(asked(story, "cockpit").map(([say]) => say)).not.toContain("inboardTurns");
    expect(asked(story, "cockpit")).toContainEqual(["removeChocks", null]);
  });

  it("[MCN-7] nobody is asked to start them again, but an outboard engine that quit may be", () => {
    const story = released();
    story.brakes();
    story.send("cockpit", "shutDown", { engine: 2 });
    expect(asked(story, "supervisor").map(([say]) => say)).not.toContain("goBack");
    story.send("cockpit", "shutDown", { engine: 1 });
    expect(asked(story, "supervisor").map(([say]) => say)).toContain("goBack");
  });
});

describe("time under every condition", () => {
  it("[TIM-1] changes nothing before the next deadline and something at it, up to the last deadline", () => {
    const story = given({ type: STRICT, powerSource: "batteries" });
    story.upTo("secure");
    for (const n of [1, 2, 3, 4]) counted(story, n);
    story.upTo("starting");
    for (const c of DEFINITIONS) if (c.scope.clearance && c.check !== undefined) found(story, c.check, true);
    story.say("supervisor", { type: "recordWeather", windKt: 5 });
    story.cleared(3);
    story.does(di, { type: "override", condition: "brakesSet", engine: 3, reason: "x" });
    expect(CONDITION_IDS.length).toBeGreaterThan(20);
    let steps = 0;
    for (let due = nextDeadline(story.state); due !== null && steps < 200; due = nextDeadline(story.state)) {
      expect(due).toBeGreaterThan(story.state.at);
      expect(tick(story.state, due - 1).events).toEqual([]);
      expect(tick(story.state, due).events.length).toBeGreaterThan(0);
      story.waitMs(due - story.now);
      steps += 1;
    }
    expect(steps).toBeGreaterThan(1);
    expect(nextDeadline(story.state)).not.toBe(story.state.at);
  });
});
