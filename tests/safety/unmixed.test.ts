import { describe, expect, it } from "vitest";
import { FOUR } from "../spec/aircraft.ts";
import { given } from "../spec/given.ts";
import { drill, drilled } from "./types.ts";

const ONE = drill("one", "manual");
const OTHER = drill("other", "manual");
const TYPE = drilled(ONE, OTHER);
const PLAIN = { ...TYPE, conditions: TYPE.conditions.filter((c) => c !== "bladesCounted") };

describe("one thing said is not another", () => {
  it("[OIL-2, ALR-1] a guard who leaves an engine that caught changes nothing about its oil alerts", () => {
    const story = given().upTo("starting").caught(3);
    story.send("fireGuard", "guardAway");
    expect(story.alerts).toEqual(["guardMissing"]);
    story.wait(120);
    expect(story.alerts).toEqual(["guardMissing", "oilFirstLate", "oilNormalLate"]);
  });

  it("[OIL-2] a late first indication leaves the limit of normal pressure", () => {
    const story = given().upTo("starting").caught(3);
    story.wait(120);
    expect(story.alerts).toEqual(["oilFirstLate", "oilNormalLate"]);
  });

  it("[DRL-2] two drills at one engine have two cards, and so does one drill at two engines", () => {
    const story = given({ type: PLAIN }).upTo("starting");
    const start = (id: string, engine: number) =>
      story.say("cockpit", { type: "startDrill", drill: id, engine }).refusal?.reason;
    expect([start("one", 3), start("other", 3), start("one", 4)]).toEqual([undefined, undefined, undefined]);
    expect(start("one", 3)).toBe("alreadyDone");
    expect(story.state.drills.map((r) => [r.drill, r.engine])).toEqual([
      ["one", 3],
      ["other", 3],
      ["one", 4],
    ]);
  });

  it("[DRL-2] the end of one drill leaves the cause of another at the same engine", () => {
    const fire = drill("fireIn", "fire:induction");
    const lost = drill("lost", "alert:guardMissing");
    const story = given({ type: { ...FOUR, drills: [fire, lost] } })
      .upTo("starting")
      .caught(3);
    story.send("fireGuard", "fire", { engine: 3, place: "induction" });
    story.send("fireGuard", "guardAway");
    expect(story.state.drills.map((r) => r.drill)).toEqual(["fireIn", "lost"]);
    const opened = [...story.state.drillsOpened];
    expect(opened).toHaveLength(2);
    const [first] = story.state.drills;
    story.say("supervisor", { type: "endDrill", run: first?.id ?? 0, outcome: "worked" });
    expect(story.state.drills.map((r) => r.drill)).toEqual(["lost"]);
    expect(story.state.drillsOpened).toEqual(opened);
    // The guard came back and went away again: the same drill opens again.
    story.say("supervisor", { type: "endDrill", run: story.state.drills[0]?.id ?? 0, outcome: "worked" });
    story.send("fireGuard", "guardInPlace", { engine: 3 });
    story.send("fireGuard", "guardAway");
    expect(story.state.drills.map((r) => r.drill)).toEqual(["lost"]);
  });
});
