import { describe, expect, it } from "vitest";
import { type Requirement, readRequirement, requirementCode } from "../../shared/plan/requirement.ts";
import { missingFor } from "../../shared/plan/requirements.ts";
import { outcomesOf } from "../../shared/words/outcomes.ts";
import { SPOKEN } from "../../shared/words/spoken.ts";
import { FOUR } from "./aircraft.ts";
import { ed, given } from "./given.ts";

const COUNTED = { ...FOUR, conditions: [...FOUR.conditions, "bladesCounted" as const] };
const blades = (codes: readonly string[]) => codes.filter((c) => c.startsWith("blades:"));

describe("what a stage waits for", () => {
  it("[MCN-8, STG-12] secure waits for the blades of the order's engines alone", () => {
    const story = given({ type: COUNTED, order: [3, 4] }).upTo("secure");
    expect(blades(missingFor(story.state, story.now))).toEqual(["blades:3", "blades:4"]);
  });

  it("[MCN-8] secure waits for no blades of an engine that turns", () => {
    const story = given({ type: COUNTED, order: [3, 4] }).upTo("secure");
    story.does(ed, { type: "send", kind: "turning", engine: 3 });
    expect(blades(missingFor(story.state, story.now))).toEqual(["blades:4"]);
  });

  it("[MCN-8] no stage waits for blades if the type does not ask for them", () => {
    const story = given({ order: [3, 4] }).upTo("secure");
    expect(blades(missingFor(story.state, story.now))).toEqual([]);
  });

  it.each<Requirement>([
    { is: "post", post: "cockpit" },
    { is: "briefed", post: "fireGuard" },
    { is: "check", check: "battery1" },
    { is: "condition", condition: "chocksIn" },
    { is: "blades", engine: 2 },
    { is: "handling", engine: 4 },
    { is: "engine", engine: 3 },
    { is: "gate", engine: 3, gauge: "oilTemp" },
    { is: "runUp", fault: { engine: 3, of: { check: "magneto" }, what: "uneven" } },
    { is: "runUp", fault: { engine: null, of: { gauge: "hydraulic" }, what: "notRead" } },
    { is: "powerOff" },
    { is: "chocksOut" },
    { is: "allClear" },
  ])("[STG-12] a refusal's code says the same requirement again: $is", (requirement) => {
    expect(readRequirement(requirementCode(requirement))).toEqual(requirement);
  });

  it("[STG-12, LNG-1] a code of another version is shown as unknown, never as another requirement", () => {
    const refusal = { reason: "requirementsUnmet", missing: ["towBarOff", "post:pilot"] } as const;
    for (const words of Object.values(SPOKEN)) {
      const said = outcomesOf(words).refusal({ ...refusal, missing: [...refusal.missing] });
      expect(said).toContain("towBarOff");
      expect(said).toContain("post:pilot");
      expect(said).not.toContain(outcomesOf(words).missing({ is: "allClear" }));
    }
  });
});
