import { describe, expect, it } from "vitest";
import { missingFor } from "../../shared/plan/requirements.ts";
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

  it("[MCN-8] blades are not waited for where the type does not ask for them", () => {
    const story = given({ order: [3, 4] }).upTo("secure");
    expect(blades(missingFor(story.state, story.now))).toEqual([]);
  });
});
