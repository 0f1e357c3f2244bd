import { describe, expect, it } from "vitest";
import { DEFINITIONS, findAll } from "../../shared/conditions/all.ts";
import { CONDITION_IDS, type ConditionId } from "../../shared/protocol/conditions.ts";
import { readAircraftType } from "../../shared/types/validate.ts";
import { FOUR } from "./aircraft.ts";
import { ed, given, type Story } from "./given.ts";

const starting = () => given().upTo("starting");
/** Returns the finding for engine 3 at the story's clock, even if the server has not looked yet. */
const ask = (story: Story, id: ConditionId, engine = 3) => {
  const report = findAll(story.state, engine, story.now).find((r) => r.id === id);
  if (!report) throw new Error(`${id} is not asked`);
  return report;
};
const is = (story: Story, id: ConditionId, engine = 3) => ask(story, id, engine).is;

describe("conditions", () => {
  it("[CON-1] are unknown before anybody reported anything", () => {
    const story = given();
    expect(Object.fromEntries(FOUR.conditions.map((id) => [id, is(story, id)]))).toEqual({
      noStopOpen: "yes",
      guardInPlace: "unknown",
      arcClear: "unknown",
      brakesSet: "unknown",
      chocksIn: "unknown",
      groundPowerKnown: "unknown",
      noOtherTurningUp: "yes",
      othersSettled: "yes",
      starterCool: "yes",
      postsHeld: "no",
      handsOffPropellers: "yes",
    });
    expect([is(story, "noLeaveOut"), is(story, "noDrillBars")]).toEqual(["yes", "yes"]);
  });

  const ageing: [ConditionId, number, (s: Story) => unknown][] = [
    ["guardInPlace", 90, (s) => s.send("fireGuard", "guardInPlace", { engine: 3 })],
    ["arcClear", 45, (s) => s.guarded(3)],
    ["brakesSet", 600, (s) => s.brakes()],
    ["groundPowerKnown", 900, (s) => s.volts(28)],
  ];
  it.each(ageing)("[CON-1, CON-2] %s is fresh before %i s and stale at them", (id, seconds, said) => {
    const story = starting();
    said(story);
    const until = story.now + seconds * 1000;
    expect(ask(story, id)).toMatchObject({ is: "yes", until, at: story.now, age: 0 });
    story.unseen(seconds * 1000 - 1);
    expect(is(story, id)).toBe("yes");
    story.unseen(1);
    expect(ask(story, id)).toMatchObject({ is: "stale", age: seconds * 1000 });
    said(story);
    expect(is(story, id)).toBe("yes");
  });

  it.each(["hold", "cut", "cutAll", "fire", "turning"] as const)(
    "[CON-3] noStopOpen: no while a %s stands",
    (kind) => {
      const story = starting();
      story.does(ed, { type: "send", kind, engine: 1 });
      expect(ask(story, "noStopOpen")).toMatchObject({ is: "no", by: { post: null, name: "Ed" } });
    },
  );

  it("[CON-4] guardInPlace: no for a guard elsewhere, unknown for a guard away", () => {
    const story = starting().guarded(4);
    expect(ask(story, "guardInPlace")).toMatchObject({ is: "no", found: "4" });
    story.send("fireGuard", "guardAway");
    expect(is(story, "guardInPlace", 4)).toBe("unknown");
  });

  it("[CON-5] arcClear: a guard who moves ends every arc report, one who stays does not", () => {
    const story = starting().guarded(3);
    story.send("fireGuard", "guardInPlace", { engine: 3 });
    expect(is(story, "arcClear")).toBe("yes");
    story.send("fireGuard", "guardInPlace", { engine: 4 });
    story.send("fireGuard", "guardInPlace", { engine: 3 });
    expect(is(story, "arcClear")).toBe("unknown");
  });

  it("[CON-6] brakesSet: no when released or below the pressure, yes at the pressure", () => {
    const story = starting();
    story.brakes(599.9);
    expect(ask(story, "brakesSet")).toMatchObject({ is: "no", found: "599.9 psi" });
    story.brakes(600);
    expect(is(story, "brakesSet")).toBe("yes");
    story.send("cockpit", "brakesReleased");
    expect(is(story, "brakesSet")).toBe("no");
  });

  it("[CON-7] chocksIn: does not age", () => {
    const story = starting().unseen(86_400_000);
    expect(is(story, "chocksIn")).toBe("yes");
  });

  it.each([
    [25.9, "no"],
    [26, "yes"],
    [29, "yes"],
    [29.1, "no"],
  ] as const)("[CON-8] groundPowerKnown: %d V is a %s", (volts, answer) => {
    const story = starting();
    story.volts(volts);
    expect(is(story, "groundPowerKnown")).toBe(answer);
  });

  it("[CON-8] groundPowerKnown: off is a no with a cart planned, a yes on batteries", () => {
    const story = starting();
    story.powerOff();
    expect(ask(story, "groundPowerKnown")).toMatchObject({ is: "no", found: "off" });
    story.say("supervisor", { type: "amendPlan", powerSource: "batteries", reason: "cart broken" });
    expect(is(story, "groundPowerKnown")).toBe("yes");
    expect(ask(given({ powerSource: "batteries" }), "groundPowerKnown")).toMatchObject({
      is: "yes",
      found: "batteries",
    });
  });

  it("[CON-9] noOtherTurningUp: no while another engine is cleared or cranks", () => {
    const story = starting();
    const clearance = story.readBack(4);
    expect(ask(story, "noOtherTurningUp")).toMatchObject({ is: "no", found: "4" });
    story.send("cockpit", "cranking", { engine: 4, ref: clearance });
    expect(is(story, "noOtherTurningUp")).toBe("no");
    expect(is(story, "noOtherTurningUp", 4)).toBe("yes");
    story.send("cockpit", "caught", { engine: 4 });
    expect(is(story, "noOtherTurningUp")).toBe("yes");
  });

  it("[CON-10] othersSettled: no while another engine has caught, runs or burns", () => {
    const story = starting().caught(4);
    expect(is(story, "othersSettled")).toBe("no");
    story.oil(4, 60);
    expect([story.life(4), is(story, "othersSettled")]).toEqual(["running", "no"]);
    story.send("cockpit", "started", { engine: 4 });
    expect(is(story, "othersSettled")).toBe("yes");
    story.send("fireGuard", "fire", { engine: 1 });
    expect(ask(story, "othersSettled")).toMatchObject({ is: "no", found: "1" });
  });

  it("[CON-11] starterCool: no until the rest is over, with the time of its end", () => {
    const story = starting().failedStart(3, 10);
    expect(ask(story, "starterCool")).toMatchObject({ is: "no", until: story.now + 60_000 });
    story.unseen(59_999);
    expect(is(story, "starterCool")).toBe("no");
    story.unseen(1);
    expect(is(story, "starterCool")).toBe("yes");
  });

  it("[CON-12] postsHeld: no while a post is vacant or not briefed", () => {
    const story = starting();
    expect(is(story, "postsHeld")).toBe("yes");
    for (const post of ["cockpit", "fireGuard", "groundPower", "supervisor"] as const) {
      story.say(post, { type: "leavePost", post });
      expect(ask(story, "postsHeld")).toMatchObject({ is: "no", found: post });
      story.say(post, { type: "claimPost", post });
      expect(ask(story, "postsHeld")).toMatchObject({ is: "no", found: post });
      story.say(post, { type: "confirmBrief" });
      expect(is(story, "postsHeld")).toBe("yes");
    }
  });

  const ALWAYS: ConditionId[] = [
    "noStopOpen",
    "guardInPlace",
    "arcClear",
    "noOtherTurningUp",
    "starterCool",
    "postsHeld",
    "handsOffPropellers",
    "propellersStill",
    "noLeaveOut",
    "noDrillBars",
    "lightningClear",
  ];
  it.each(CONDITION_IDS)(
    "[CON-13] a type without %s is taken, and the condition applies if it always does",
    (id) => {
      const checks = DEFINITIONS.flatMap((c) => c.check ?? []).map((check) => ({
        id: check,
        words: check,
        stage: "secure",
        post: "supervisor",
        source: FOUR.orderSource,
      }));
      // Inboard engines that are to stand still are not started by the default order.
      const defaultOrder = [4, 1];
      const conditions = CONDITION_IDS.filter((c) => c !== id);
      const attempts = { value: 3, unit: "count", source: FOUR.orderSource };
      const starter = { ...FOUR.starter, attempts };
      const item = { id: "set", words: "Set", moment: "beforeStart", post: "cockpit", kind: { is: "done" } };
      const card = [{ ...item, clearance: true, source: FOUR.orderSource }];
      const carded = id === "cardAnswered" ? {} : { card };
      const read = readAircraftType({ ...FOUR, ...carded, starter, defaultOrder, checks, conditions });
      expect("faults" in read ? read.faults : []).toEqual([]);
      const type = { ...FOUR, conditions: FOUR.conditions.filter((c) => c !== id) };
      const { state, now } = given({ type });
      expect(findAll(state, 3, now).some((r) => r.id === id)).toBe(ALWAYS.includes(id));
    },
  );

  it.each(["fireGuard", "groundPower", "supervisor"] as const)(
    "[CON-14] %s says the arc is not clear; only the guard takes it back",
    (post) => {
      const story = starting().guarded(3);
      story.send(post, "arcNotClear", { engine: 3 });
      expect(is(story, "arcClear")).toBe("no");
      expect(story.send("supervisor", "arcClear", { engine: 3 }).refusal?.reason).toBe("wrongPost");
      story.send("fireGuard", "arcClear", { engine: 3 });
      expect(is(story, "arcClear")).toBe("yes");
    },
  );

  it("[CON-15] arcClear: yes only from a guard at that engine; cranking uses the report up", () => {
    const story = starting();
    story.send("fireGuard", "guardInPlace", { engine: 4 });
    expect(story.send("fireGuard", "arcClear", { engine: 3 }).refusal).toMatchObject({
      reason: "notAtEngine",
      found: "4",
    });
    story.cranking(3);
    expect(is(story, "arcClear")).toBe("unknown");
  });
});
