import { describe, expect, it } from "vitest";
import { askedOf } from "../../shared/asks/asked.ts";
import { conditionOf, DEFINITIONS, findAll, findUnmet } from "../../shared/conditions/all.ts";
import { ownersOf } from "../../shared/conditions/report.ts";
import { unmetForService } from "../../shared/leaves/conditions.ts";
import { missingFor } from "../../shared/plan/requirements.ts";
import { CONDITION_IDS, type ConditionId } from "../../shared/protocol/conditions.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import type { AircraftType, Check } from "../../shared/types/schema.ts";
import { FOUR } from "./aircraft.ts";
import { given, type Story } from "./given.ts";

/** Returns the type with a condition, and its check given to a post and a stage. */
function withCheck(id: ConditionId, post: Post, stage: Check["stage"]): AircraftType {
  const { check } = conditionOf(id);
  if (check === undefined) throw new Error(`${id} stands on no check`);
  const added: Check = { id: check, words: check, stage, post, source: FOUR.orderSource };
  return { ...FOUR, checks: [...FOUR.checks, added], conditions: [...FOUR.conditions, id] };
}

const askedFor = (story: Story, check: string): Post[] =>
  POSTS.filter((post) => askedOf(story.state, post, story.now).some((a) => a.key === `check:${check}`));
const unmet = (story: Story, id: ConditionId) =>
  findUnmet(story.state, 3, story.now).find((r) => r.id === id);

describe("a definition for every condition", () => {
  it("[CON-16] an id without a definition throws; it is never passed over", () => {
    const id = "nobodyDefinedThis" as ConditionId;
    expect(() => conditionOf(id)).toThrow(id);
    expect(() => conditionOf("constructor" as ConditionId)).toThrow("constructor");
    const { state, now } = given().upTo("starting");
    const type = { ...state.type, conditions: [...state.type.conditions, id] };
    expect(() => findUnmet({ ...state, type }, 3, now)).toThrow(id);
  });

  it("[CON-16] each id is defined under its own name", () => {
    expect(DEFINITIONS.map((c) => c.id)).toEqual(CONDITION_IDS);
  });

  it("[CON-16, CLR-4] findings come in the order in which the type lists the conditions", () => {
    const conditions = FOUR.conditions.toReversed();
    const story = given({ type: { ...FOUR, conditions } }).upTo("starting");
    expect(findAll(story.state, 3, story.now).map((r) => r.id)).toEqual([
      ...conditions,
      "propellersStill",
      "noLeaveOut",
      "noDrillBars",
      "lightningClear",
    ]);
  });
});

describe("who meets a condition that stands on a check", () => {
  it.each(POSTS)("[CON-17] %s, when the type gives the check to that post", (post) => {
    const story = given({ type: withCheck("areaChecked", post, "secure") });
    expect(ownersOf(story.state, conditionOf("areaChecked"))).toEqual([post]);
  });

  // The test type needs ground power only where a cart is planned.
  const onBatteries = () =>
    given({ type: withCheck("areaChecked", "groundPower", "secure"), powerSource: "batteries" });

  it("[CON-17, CHK-6] a post this start does not need: the supervisor is asked and records it", () => {
    const story = onBatteries().upTo("secure");
    expect(askedFor(story, "area")).toEqual(["supervisor"]);
    expect(missingFor(story.state, story.now)).toContain("check:area");
    expect(story.say("cockpit", { type: "recordCheck", check: "area", good: true }).refusal).toMatchObject({
      reason: "wrongPost",
      posts: ["supervisor"],
    });
    expect(
      story.say("supervisor", { type: "recordCheck", check: "area", good: true }).refusal,
    ).toBeUndefined();
    expect(missingFor(story.state, story.now)).not.toContain("check:area");
    expect(askedFor(story, "area")).toEqual([]);
    expect(findAll(story.state, 3, story.now).find((r) => r.id === "areaChecked")).toMatchObject({
      is: "yes",
      by: { post: "supervisor", name: "Di" },
    });
  });

  it("[CON-17, CLR-2] the refusal of a clearance names the supervisor in that post's place", () => {
    const story = given({
      type: withCheck("areaChecked", "groundPower", "closed"),
      powerSource: "batteries",
    });
    story.upTo("starting").requested(3).guarded(3);
    const { refusal } = story.send("supervisor", "clearToStart", { engine: 3 });
    expect(refusal?.unmet).toMatchObject([{ id: "areaChecked", is: "unknown", owners: ["supervisor"] }]);
    expect(askedFor(story, "area")).toEqual(["supervisor"]);
  });

  it("[CON-17] with a cart planned, or where the type requires ground power, that post keeps it", () => {
    const type = withCheck("areaChecked", "groundPower", "closed");
    const required: AircraftType = { ...type, requiredPosts: [...type.requiredPosts, "groundPower"] };
    for (const story of [given({ type }), given({ type: required, powerSource: "batteries" })]) {
      story.upTo("starting");
      expect(unmet(story, "areaChecked")?.owners).toEqual(["groundPower"]);
      expect(askedFor(story, "area")).toEqual(["groundPower"]);
      expect(
        story.say("supervisor", { type: "recordCheck", check: "area", good: true }).refusal?.reason,
      ).toBe("wrongPost");
    }
  });

  it("[CON-17] who looked stays on the record when the plan changes to a cart", () => {
    const story = given({
      type: withCheck("areaChecked", "groundPower", "closed"),
      powerSource: "batteries",
    });
    story.upTo("starting").say("supervisor", { type: "recordCheck", check: "area", good: true });
    story.say("supervisor", { type: "amendPlan", powerSource: "groundPower", reason: "weak battery" });
    expect(findAll(story.state, 3, story.now).find((r) => r.id === "areaChecked")?.by?.post).toBe(
      "supervisor",
    );
    expect(story.replayed()).toEqual(story.state);
  });

  it("[CON-17, MCN-7] a start on batteries is not held up by the check for connecting a cart", () => {
    const story = given({
      type: withCheck("cartOutputOff", "groundPower", "groundPower"),
      powerSource: "batteries",
    });
    story.upTo("powerUp");
    expect(askedFor(story, "cartOutputOff")).toEqual([]);
    story.upTo("groundPower");
    expect(askedFor(story, "cartOutputOff")).toEqual([]);
    expect(missingFor(story.state, story.now)).not.toContain("check:cartOutputOff");
    // A cart that comes anyway is connected only with its output off, and somebody can report that.
    expect(unmetForService(story.state, "connectPower", story.now).map((r) => r.owners)).toEqual([
      ["supervisor"],
    ]);
    story.say("supervisor", { type: "recordCheck", check: "cartOutputOff", good: true });
    expect(unmetForService(story.state, "connectPower", story.now)).toEqual([]);
  });
});

describe("a check that a clearance stands on", () => {
  const checked = DEFINITIONS.filter((c) => c.check !== undefined && c.scope.clearance !== undefined);

  it.each(checked.map((c) => c.id))(
    "[CON-18] %s is asked for while starting until it is good and fresh",
    (id) => {
      const check = conditionOf(id).check ?? "";
      const story = given({ type: withCheck(id, "fireGuard", "closed") });
      story.upTo("groundPower");
      expect(askedFor(story, check)).toEqual([]);
      story.upTo("starting");
      expect(askedFor(story, check)).toEqual(["fireGuard"]);
      story.say("fireGuard", { type: "recordCheck", check, good: false });
      expect(askedFor(story, check)).toEqual(["fireGuard"]);
      story.say("fireGuard", { type: "recordCheck", check, good: true });
      expect([askedFor(story, check), unmet(story, id)]).toEqual([[], undefined]);
      story.unseen(86_399_000);
      expect(askedFor(story, check).length > 0).toBe(unmet(story, id) !== undefined);
    },
  );
});
