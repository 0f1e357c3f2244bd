import { describe, expect, it } from "vitest";
import { contributionOf } from "../../shared/aircraft/contribution.ts";
import { NOTHING_REPORTED } from "../../shared/aircraft/record.ts";
import { askedOf } from "../../shared/asks/asked.ts";
import { wholeCard } from "../../shared/card/whole.ts";
import type { Post } from "../../shared/protocol/posts.ts";
import type { Refusal } from "../../shared/protocol/refusal.ts";
import { say as english } from "../../shared/words/en.ts";
import { outcomesOf } from "../../shared/words/outcomes.ts";
import { ada, bo, cy, di, fay, given, onDevice, type Plan, type Story } from "./given.ts";
import { SEEN_BY_GUARD, STOPPED } from "./stoppable.ts";

const back = ({ order = [2, 3, 1, 4], ...plan }: Plan = {}) =>
  given({ type: STOPPED, purpose: "return", order, ...plan }).manned();
const missing = (story: Story, to: "stopping" | "stowing" | "closed") =>
  story.say("supervisor", { type: "advance", to }).refusal?.missing;
const says = (story: Story, post: Post) => askedOf(story.state, post, story.now).map((a) => a.say);
const stop = (story: Story, engine: number) => story.send("cockpit", "shutDown", { engine });
const still = (story: Story, engine: number, post: Post = "fireGuard") =>
  story.send(post, "propellerStill", { engine });
const cool = (story: Story, engine: number, value = 180) =>
  story.reading("cylinderTemp", engine, value, "degC");

describe("a return", () => {
  it("[RTN-1] has stages of its own, and its order is the type's order of stopping", () => {
    const story = back().upTo("closed");
    const stages = story.told("stageReached").map((f) => f.stage);
    expect(stages).toEqual(["brief", "arrival", "stopping", "stowing", "closed"]);
    const amended = back().upTo("brief");
    const other = { type: "amendPlan" as const, order: [1, 2, 3, 4], reason: "fuel" };
    expect(amended.say("supervisor", other).refusal).toBeUndefined();
    expect(amended.told("planAmended").at(-1)?.orderAdvice).toEqual({ order: [2, 3, 1, 4], extra: null });
  });

  it("[RTN-2] the engines of its order turn from the arrival on; the others are not seen still", () => {
    const story = back({ order: [3, 1, 4] }).upTo("brief");
    expect(story.life(3)).toBe("waiting");
    story.upTo("arrival");
    expect([1, 2, 3, 4].map((n) => story.life(n))).toEqual(["stable", "waiting", "stable", "stable"]);
    story.upTo("stopping");
    for (const n of [3, 1, 4]) story.stopped(n);
    expect(says(story, "fireGuard")).toContain("propellerStopped");
    story.send("cockpit", "switchesOff");
    expect(missing(story, "stowing")).toEqual(["still:2"]);
    still(story, 2);
    expect(missing(story, "stowing")).toBeUndefined();
  });

  it("[RTN-3, RTN-4] it stands, is braked and chocked on leave before its engines are stopped", () => {
    const story = back().upTo("arrival");
    expect(says(story, "supervisor")).toContain("onStand");
    expect(says(story, "cockpit")).not.toContain("brakesSet");
    expect(missing(story, "stopping")).toEqual(["onStand", "condition:brakesSet", "condition:chocksIn"]);
    story.send("fireGuard", "onStand");
    expect(story.send("supervisor", "onStand").refusal?.reason).toBe("alreadyDone");
    expect(says(story, "cockpit")).toEqual(expect.arrayContaining(["answer.onStand", "brakesSet"]));
    expect(says(story, "cockpit")).not.toContain("insertChocks");
    expect(says(story, "groundPower")).not.toContain("chocksIn");
    story.heard().brakes();
    expect(says(story, "cockpit")).toContain("insertChocks");
    story.send("cockpit", "insertChocks");
    expect(says(story, "groundPower")).toContain("chocksIn");
    story.send("groundPower", "chocksIn");
    expect(missing(story, "stopping")).toBeUndefined();
  });

  it("[RTN-3, RTN-4, RTN-11] inboard engines beside the wheels are stopped before the chocks go in", () => {
    const type = { ...STOPPED, conditions: [...STOPPED.conditions, "inboardStopped" as const] };
    const story = back({ type }).upTo("arrival");
    story.send("supervisor", "onStand");
    story.brakes();
    expect(says(story, "cockpit")).not.toContain("insertChocks");
    expect(story.send("cockpit", "insertChocks").refusal?.unmet).toMatchObject([{ id: "inboardStopped" }]);
    expect(missing(story, "stopping")).toBeUndefined();
    for (const n of [2, 3]) story.stopped(n);
    expect(says(story, "cockpit")).toContain("insertChocks");
    expect(missing(story, "stowing")).toContain("condition:chocksIn");
    story.send("cockpit", "insertChocks");
    story.send("groundPower", "chocksIn");
    expect(missing(story, "stowing")).not.toContain("condition:chocksIn");
  });
});

describe("cool-down", () => {
  const stopping = () => back().upTo("stopping");

  it("[RTN-5, RTN-6] the later of time and temperature governs, and the limit itself is enough", () => {
    const story = stopping();
    expect(says(story, "cockpit")).toContain("coolDownBegins");
    cool(story, 2);
    story.wait(1);
    story.send("cockpit", "coolDown");
    const asked = () => askedOf(story.state, "cockpit", story.now).find((a) => a.engine === 2);
    // A figure read before the engines idled says nothing.
    expect(asked()?.say).toBe("coolDownGauge");
    expect(asked()?.dueAt).toBe(story.now + 120_000);
    cool(story, 2, 201);
    expect(asked()?.say).toBe("coolDownGauge");
    cool(story, 2, 200);
    expect(asked()?.say).toBe("coolDownTime");
    story.waitMs(119_999);
    expect(asked()?.say).toBe("coolDownTime");
    story.waitMs(1);
    expect(asked()?.say).toBe("stopEngine");
    stop(story, 2);
    expect(story.told("coolDownCut")).toEqual([]);
    expect(askedOf(story.state, "cockpit", story.now).find((a) => a.engine === 3)?.say).toBe("coolDownGauge");
  });

  it("[RTN-5, RTN-6] a type without a cool-down asks for none", () => {
    const { coolDown: _none, ...stoppingRules } = STOPPED.stopping ?? {};
    const story = back({ type: { ...STOPPED, stopping: stoppingRules as typeof STOPPED.stopping } }).upTo(
      "stopping",
    );
    expect(says(story, "cockpit")).toEqual(["stopEngine"]);
    stop(story, 2);
    expect(story.told("coolDownCut")).toEqual([]);
  });

  it("[RTN-7] an engine is stopped warm all the same: the record says what was short, and asks why", () => {
    const story = stopping();
    story.send("cockpit", "coolDown");
    story.wait(30);
    cool(story, 2, 230);
    expect(stop(story, 2).refusal).toBeUndefined();
    expect(story.told("coolDownCut")).toEqual([
      {
        type: "coolDownCut",
        engine: 2,
        short: [
          { is: "time", allowed: 120, found: 30, unit: "s" },
          { is: "gauge", gauge: "cylinderTemp", allowed: 200, found: 230, unit: "degC" },
        ],
      },
    ]);
    expect(says(story, "cockpit")).toContain("coolDownRemark");
    story.upTo("stowing");
    expect(missing(story, "closed")).toContain("remark:2");
    const asked = askedOf(story.state, "cockpit", story.now).find((a) => a.key === "remark:2");
    expect(asked?.choices[0]?.draft).toEqual({ type: "writeDefect", engine: 2, barsStart: false });
    for (const engine of [1, 2, 3, 4])
      story.say("cockpit", { type: "writeDefect", engine, words: "rough, stopped warm", barsStart: false });
    expect(says(story, "cockpit")).not.toContain("coolDownRemark");
    expect(missing(story, "closed")).toBeUndefined();
  });

  it("[RTN-7] a cut stops warm engines, also before they idle, and a stop is never refused for it", () => {
    const story = stopping();
    const cut = story.send("groundPower", "cutAll").events[0]?.seq ?? 0;
    expect(story.answer("cockpit", cut, "done").refusal).toBeUndefined();
    expect([1, 2, 3, 4].map((n) => story.life(n))).toEqual(Array(4).fill("shutDown"));
    expect(story.told("coolDownCut").map((f) => f.engine)).toEqual([1, 2, 3, 4]);
    expect(story.told("coolDownCut")[0]?.short).toEqual([
      { is: "time", allowed: 120, found: 0, unit: "s" },
      { is: "gauge", gauge: "cylinderTemp", allowed: 200, found: null, unit: "degC" },
    ]);
    // The reason is asked for once the danger is over.
    expect(says(story, "cockpit")).not.toContain("coolDownRemark");
    story.send("supervisor", "resetCut", { ref: cut });
    expect(says(story, "cockpit")).toContain("coolDownRemark");
  });
});

describe("a propeller seen still", () => {
  it("[RTN-8] never while its engine turns, and not by the person or the device that stopped it", () => {
    const story = back().upTo("stopping");
    expect(still(story, 2).refusal).toMatchObject({ reason: "wrongEngineState", found: "stable" });
    stop(story, 2);
    const say = { type: "send", kind: "propellerStill", engine: 2 } as const;
    expect(story.does(ada, say).refusal).toMatchObject({ reason: "secondPersonNeeded", found: "Ada" });
    // The guard borrows the cockpit's tablet: one device is no second witness.
    const borrowed = onDevice(bo, ada.device);
    story.does(bo, { type: "leavePost", post: "fireGuard" });
    story.does(borrowed, { type: "claimPost", post: "fireGuard" });
    expect(story.does(borrowed, say).refusal?.reason).toBe("secondPersonNeeded");
    expect(story.does(cy, say).refusal).toBeUndefined();
    expect(still(story, 2, "supervisor").refusal?.reason).toBe("nothingOpen");
  });

  it("[RTN-8] where the type asks for the guard, only by the guard", () => {
    const story = back({ type: SEEN_BY_GUARD }).upTo("stopping");
    stop(story, 2);
    for (const post of ["groundPower", "supervisor"] as const)
      expect(still(story, 2, post).refusal).toMatchObject({ reason: "wrongPost", posts: ["fireGuard"] });
    expect(still(story, 2).refusal).toBeUndefined();
  });

  it("[RTN-8] the guard is asked; without a guard, who is there", () => {
    const story = back().upTo("stopping");
    stop(story, 2);
    expect(says(story, "fireGuard")).toContain("propellerStopped");
    expect(says(story, "groundPower")).not.toContain("propellerStopped");
    story.does(bo, { type: "leavePost", post: "fireGuard" });
    expect(says(story, "groundPower")).toContain("propellerStopped");
    story.does(cy, { type: "leavePost", post: "groundPower" });
    expect(says(story, "supervisor")).toContain("propellerStopped");
  });

  it("[RTN-9] the switches are proved off after the last propeller stands, and in doubt when one turns again", () => {
    const story = back().upTo("stopping");
    expect(story.send("cockpit", "switchesOff").refusal?.reason).toBe("wrongEngineState");
    for (const n of [2, 3, 1]) story.stopped(n);
    stop(story, 4);
    expect(says(story, "cockpit")).not.toContain("switchesOff");
    still(story, 4);
    expect(says(story, "cockpit")).toContain("switchesOff");
    story.send("cockpit", "switchesOff");
    expect(says(story, "cockpit")).not.toContain("switchesOff");
    story.send("groundPower", "turning", { engine: 4 });
    expect(story.state.returning?.switchesOff).toBeNull();
    stop(story, 4);
    expect(missing(story, "stowing")).toBeUndefined();
    expect(story.refused).toBe("stopOpen");
  });
});

describe("hands after a run", () => {
  const hands = (story: Story, engine: number) =>
    story.send("cockpit", "handlePropeller", { engine }).refusal;

  it("[RTN-10, RTN-11] only when every propeller was seen still and the switches are off", () => {
    const story = back().upTo("stopping");
    for (const n of [2, 3, 1, 4]) story.stopped(n);
    expect(hands(story, 2)?.reason).toBe("wrongStage");
    expect(missing(story, "stowing")).toEqual(["switchesOff"]);
    story.send("cockpit", "switchesOff");
    story.upTo("stowing");
    expect(hands(story, 2)).toBeUndefined();
    expect(says(story, "groundPower")).toContain("handsOn");
    expect(missing(story, "closed")).toContain("handling:2");
    story.send("fireGuard", "propellerFree", { engine: 2 });
    // An engine seen turning takes the permission away from all.
    story.send("groundPower", "turning", { engine: 4 });
    stop(story, 4);
    story.send("groundPower", "release", { ref: story.state.holds[0]?.id ?? 0 });
    expect(hands(story, 2)).toMatchObject({
      reason: "conditionsUnmet",
      unmet: [
        { id: "propellerSeenStill", is: "no", found: "4" },
        { id: "switchesProvedOff", is: "unknown" },
      ],
    });
  });

  it("[RTN-10] in a start too, a propeller that turned is seen still before hands go there, others need not be", () => {
    const story = given({ order: [3] }).upTo("starting");
    story.failedStart(4, 5);
    story.wait(120);
    expect(hands(story, 4)).toMatchObject({
      reason: "conditionsUnmet",
      unmet: [{ id: "propellerSeenStill" }],
    });
    expect(hands(story, 3)).toBeUndefined();
    story.send("fireGuard", "propellerFree", { engine: 3 });
    expect(still(story, 4).refusal).toBeUndefined();
    expect(hands(story, 4)).toBeUndefined();
  });
});

describe("hands on a propeller that turned under them", () => {
  it("[RTN-23] are asked off once it has stopped: nobody is told to turn it by hand", () => {
    const story = given({ order: [3] }).upTo("starting");
    story.send("cockpit", "handlePropeller", { engine: 3 });
    expect(says(story, "groundPower")).toContain("countBlades");
    story.send("supervisor", "turning", { engine: 3 });
    expect(says(story, "groundPower")).toContain("handsOffTurning");
    story.send("cockpit", "shutDown", { engine: 3 });
    expect(says(story, "groundPower")).toContain("handsOn");
    expect(says(story, "groundPower")).not.toContain("countBlades");
  });

  it("[RTN-32] count no blades while it turns or after it turned, until they are off and let near again", () => {
    const story = given({ order: [3] }).upTo("starting");
    const hands = () => story.send("cockpit", "handlePropeller", { engine: 3 });
    const count = (resistance = false) =>
      story.say("groundPower", { type: "countBlades", engine: 3, blades: 9, resistance }).refusal;
    hands();
    expect(count()).toBeUndefined();
    const before = story.state.engines[2]?.blades;
    story.send("supervisor", "turning", { engine: 3 });
    expect(count()).toMatchObject({ reason: "wrongEngineState", engine: 3, found: "cranking" });
    story.send("cockpit", "shutDown", { engine: 3 });
    const refused = count();
    expect(refused).toEqual({ reason: "turnedUnderHands", engine: 3 });
    expect(outcomesOf(english).refusal(refused as Refusal)).toBe(
      "Number 3 turned while hands were on it. Hands off, see it still, and ask the cockpit for ignition off again.",
    );
    expect(story.state.engines[2]?.blades).toEqual(before);
    // Seen still, it may still fire: nobody confirmed ignition off since it turned.
    expect(still(story, 3).refusal).toBeUndefined();
    expect(count()?.reason).toBe("turnedUnderHands");
    expect(says(story, "groundPower")).not.toContain("countBlades");
    expect(says(story, "groundPower")).toContain("handsOn");
    // Resistance is taken from anybody, at any time.
    expect(count(true)).toBeUndefined();
    story.send("fireGuard", "propellerFree", { engine: 3 });
    story.send("supervisor", "release", { ref: story.state.holds[0]?.id ?? 0 });
    story.wait(600);
    expect(hands().refusal).toBeUndefined();
    expect(says(story, "groundPower")).toContain("countBlades");
    expect(count()).toBeUndefined();
  });

  it("[RTN-32] a crank of its own engine ends the count too", () => {
    const story = given({ order: [3] }).upTo("starting");
    story.send("cockpit", "handlePropeller", { engine: 3 });
    story.send("cockpit", "cranking", { engine: 3 });
    story.send("cockpit", "startAbandoned", { engine: 3 });
    const count = { type: "countBlades", engine: 3, blades: 9, resistance: false } as const;
    expect(story.say("groundPower", count).refusal?.reason).toBe("turnedUnderHands");
    expect(story.say("fireGuard", count).refusal?.reason).toBe("turnedUnderHands");
  });
});

describe("a return from elsewhere", () => {
  it("[RTN-30] nothing turns by the record: hands stay off until named people saw every propeller still", () => {
    const standing = { record: 1, items: [], ended: [], engines: [], lastReported: NOTHING_REPORTED };
    const story = back({ order: [2, 3, 1], more: { standing } });
    const hands = (engine: number) => story.send("cockpit", "handlePropeller", { engine }).refusal?.reason;
    expect(hands(4)).toBe("wrongStage");
    story.upTo("arrival");
    expect(contributionOf(story.state).items.map((i) => i.is)).toEqual([
      ...Array(3).fill("turning"),
      "unseen",
    ]);
    story.upTo("stopping").cooled();
    for (const n of [2, 3, 1]) story.stopped(n);
    story.send("cockpit", "switchesOff");
    expect([hands(4), hands(2)]).toEqual(["wrongStage", "wrongStage"]);
    expect(missing(story, "stowing")).toEqual(["still:4"]);
    expect(still(story, 4).events[0]?.actor).toMatchObject({ kind: "person", name: "Bo", post: "fireGuard" });
    story.upTo("stowing");
    expect(hands(4)).toBeUndefined();
  });
});

describe("what a return leaves behind", () => {
  it("[RTN-12] before it stands on its place it can be abandoned, and its engines stay in the record", () => {
    const story = back().upTo("arrival");
    const gone = story.copy();
    expect(gone.say("supervisor", { type: "abandon", reason: "diverted" }).refusal).toBeUndefined();
    expect(contributionOf(gone.state).items.map((i) => i.is)).toEqual(Array(4).fill("turning"));
    story.send("supervisor", "onStand");
    expect(story.say("supervisor", { type: "abandon", reason: "diverted" }).refusal?.reason).toBe(
      "wrongEngineState",
    );
  });

  it("[RTN-13] ground power is connected while an engine turns, and away before the end", () => {
    const story = back().upTo("stopping");
    expect(says(story, "groundPower")).toContain("connectPower");
    expect(story.power().refusal).toBeUndefined();
    for (const n of [2, 3, 1, 4]) story.stopped(n);
    story.send("cockpit", "switchesOff");
    story.upTo("stowing");
    expect(missing(story, "closed")).toContain("powerOff");
    expect(says(story, "cockpit")).toContain("disconnectStopped");
    story.powerOff();
    const cold = back({ powerSource: "batteries" }).upTo("stopping");
    expect(says(cold, "groundPower")).not.toContain("connectPower");
  });

  it("[RTN-14] the record knows what turns, what was not seen still, and when each engine last ran", () => {
    const story = back().upTo("stopping");
    const items = () =>
      contributionOf(story.state).items.flatMap((i) => ("engine" in i ? [`${i.is} ${i.engine}`] : []));
    expect(items()).toEqual(["turning 1", "turning 2", "turning 3", "turning 4"]);
    stop(story, 2);
    expect(items()).toEqual(["turning 1", "turning 3", "turning 4", "unseen 2"]);
    const stopped = story.now;
    still(story, 2);
    expect(items()).toEqual(["turning 1", "turning 3", "turning 4"]);
    expect(contributionOf(story.state).engines[1]?.lastRanAt).toBe(stopped);
  });

  it("[RTN-15] the card's items before and after stopping are asked around each stop", () => {
    const card = [
      { id: "trim", words: "Trim set", moment: "beforeRelease", post: "cockpit" },
      { id: "lean", words: "Mixture lean", moment: "beforeStop", post: "cockpit" },
      { id: "off", words: "Fuel off", moment: "stopped", post: "cockpit" },
    ].map((i) => ({ ...i, kind: { is: "done" }, source: STOPPED.orderSource })) as typeof STOPPED.card;
    const story = back({ type: { ...STOPPED, card } }).upTo("stopping");
    const keys = () => askedOf(story.state, "cockpit", story.now).map((a) => a.key);
    expect(keys()).toContain("card:lean:2");
    story.say("cockpit", { type: "answerCard", item: "lean", engine: 2, good: true });
    expect(keys().some((k) => k.startsWith("card:"))).toBe(false);
    stop(story, 2);
    expect(keys()).toContain("card:off:2");
    const whole = wholeCard(story.state, story.now).map((p) => `${p.item.id}:${p.engine}`);
    expect(whole).toEqual([2, 3, 1, 4].flatMap((n) => [`lean:${n}`, `off:${n}`]));
  });

  it("[RTN-16] presence counts while an engine turns in the arrival, as in the warm-up", () => {
    const s = (value: number) => ({ value, unit: "s", source: STOPPED.orderSource }) as const;
    const timing = {
      ...STOPPED.timing,
      presenceSeen: s(15),
      presenceHeard: s(30),
      presenceHold: s(45),
      presenceAgain: s(60),
    };
    const story = back({ type: { ...STOPPED, timing } }).upTo("arrival");
    story.wait(59);
    expect(says(story, "fireGuard")).not.toContain("present");
    story.wait(1);
    expect(says(story, "fireGuard")).toContain("present");
    story.wait(40);
    expect(story.raised("postSilent")).toHaveLength(1);
    expect(story.state.holds).toEqual([]);
  });

  it("[RTN-8, RTN-14] a person who holds no post may not report a propeller still, and replay gives the same", () => {
    const story = back().upTo("stopping");
    stop(story, 2);
    const say = { type: "send", kind: "propellerStill", engine: 2 } as const;
    expect(story.does(fay, say).refusal?.reason).toBe("wrongPost");
    story.does(di, say);
    expect(story.replayed()).toEqual(story.state);
  });
});
