import { describe, expect, it } from "vitest";
import { canonical } from "../../shared/evidence/canonical.ts";
import { given } from "./given.ts";

describe("the whole job", () => {
  it("[STG-2, ALR-4, ENG-1, ENG-2] four engines are started and released, and no alert is raised", () => {
    const story = given().upTo("closed");
    expect(story.state.stage).toBe("closed");
    expect([1, 2, 3, 4].map((n) => story.life(n))).toEqual(["stable", "stable", "stable", "stable"]);
    expect(story.alerts).toEqual([]);
    expect(story.told("late")).toEqual([]);
    expect(story.told("stageReached").map((f) => f.stage)).toEqual([
      "brief",
      "secure",
      "powerUp",
      "groundPower",
      "starting",
      "warmUp",
      "release",
      "closed",
    ]);
  });

  it("[EVT-2, EVT-6] its log replays to the same bytes", () => {
    const story = given().upTo("closed");
    expect(canonical(story.replayed())).toBe(canonical(story.state));
  });
});
