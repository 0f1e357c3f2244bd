import { describe, expect, it } from "vitest";
import { given, type Story } from "./given.ts";

// The test type: first indication within 5 s, normal within 10 s (airline operations 1946); 5 and 40 psi.
const caught = (): Story => {
  const story = given().manned().upTo("starting");
  story.cranking(3);
  story.wait(5).send("cockpit", "caught", { engine: 3 });
  return story;
};
const exceeded = (story: Story) =>
  story.state.engines[2]?.exceeded.map(({ limit, allowed, found }) => [limit, allowed, found]);

describe("oil pressure that comes late", () => {
  it("[ENG-7] is in time at its limit, and is recorded with its seconds one millisecond later", () => {
    const inTime = caught().wait(5);
    inTime.oil(3, 60);
    expect(exceeded(inTime)).toEqual([]);
    const late = caught().waitMs(5_001);
    late.oil(3, 60);
    expect(exceeded(late)).toEqual([["oilFirst", 5, 5.001]]);
    expect(late.last.events.map((e) => e.fact)).toContainEqual({
      type: "exceeded",
      engine: 3,
      limit: "oilFirst",
      allowed: 5,
      found: 5.001,
      unit: "s",
    });
  });

  it("[ENG-7] is judged by each limit by itself: first in time, normal late", () => {
    const story = caught().wait(4);
    story.oil(3, 5);
    story.wait(1).oil(3, 39);
    story.wait(7).oil(3, 40);
    expect(exceeded(story)).toEqual([["oilNormal", 10, 12]]);
  });

  it("[ENG-7] exceeds both limits, once each, if it never came before the shut-down or the cut", () => {
    const shut = caught().wait(11);
    expect(exceeded(shut)).toEqual([]);
    shut.send("cockpit", "shutDown", { engine: 3 });
    expect(exceeded(shut)).toEqual([
      ["oilFirst", 5, 11],
      ["oilNormal", 10, 11],
    ]);
    const cut = caught().wait(7);
    cut.send("fireGuard", "cutAll");
    cut.answer("cockpit", cut.state.cuts[0]?.id ?? 0, "done");
    expect(exceeded(cut)).toEqual([["oilFirst", 5, 7]]);
    cut.wait(60);
    expect(exceeded(cut)).toHaveLength(1);
  });

  it("[ENG-7] exceeds no limit if the engine was shut down before", () => {
    const story = caught().wait(3);
    story.send("cockpit", "shutDown", { engine: 3 });
    expect(exceeded(story)).toEqual([]);
  });
});
