import { describe, expect, it } from "vitest";
import { plain } from "../../shared/engine/life.ts";
import { nextDeadline } from "../../shared/session/deadline.ts";
import { FOUR } from "./aircraft.ts";
import { given, type Story } from "./given.ts";

const OVERRIDABLE = { ...FOUR, overridable: ["brakesSet" as const] };
const lifeOf = (story: Story, n: number) => plain(story.state.engines[n - 1]?.life ?? { is: "waiting" });
/** Returns the milliseconds from now to the next deadline. */
const ahead = (story: Story) => (nextDeadline(story.state) ?? Number.NaN) - story.now;

describe("the next deadline", () => {
  it("[TIM-1, STR-5] of a cranking engine is a millisecond past the starter's limit, until that was said", () => {
    const story = given().upTo("starting");
    story.cranking(3);
    const life = lifeOf(story, 3);
    const limitAt = life.is === "cranking" ? life.limitAt : Number.NaN;
    expect(nextDeadline(story.state)).toBe(limitAt + 1);
    story.waitMs(limitAt + 1 - story.now);
    expect(story.raised("starterLimit")).toHaveLength(1);
    expect(nextDeadline(story.state)).toBeGreaterThan(story.now);
  });

  it("[TIM-1, OIL-1, OIL-2] of an engine that caught is each oil limit in turn, a millisecond past it", () => {
    const story = given().upTo("starting").caught(3);
    const life = lifeOf(story, 3);
    if (life.is !== "caught") throw new Error(life.is);
    expect(life.firstDueAt).toBeLessThan(life.normalDueAt);
    expect(nextDeadline(story.state)).toBe(life.firstDueAt + 1);
    story.waitMs(life.firstDueAt + 1 - story.now);
    expect(nextDeadline(story.state)).toBe(life.normalDueAt + 1);
    story.waitMs(life.normalDueAt + 1 - story.now);
    expect(story.alerts).toEqual(["oilFirstLate", "oilNormalLate"]);
    expect(ahead(story)).toBeGreaterThan(0);
  });

  it("[TIM-1, OIL-1] of an engine whose oil came is the limit of normal pressure alone", () => {
    const story = given().upTo("starting").caught(3);
    const life = lifeOf(story, 3);
    if (life.is !== "caught") throw new Error(life.is);
    story.oil(3, 20);
    expect(nextDeadline(story.state)).toBe(life.normalDueAt + 1);
  });

  it("[TIM-1, STR-6] of a cooling starter is the end of its rest", () => {
    const story = given().upTo("starting").failedStart(3, 10);
    const life = lifeOf(story, 3);
    if (life.is !== "cooling") throw new Error(life.is);
    expect(nextDeadline(story.state)).toBe(life.until);
    story.waitMs(life.until - story.now - 1);
    expect(story.life(3)).toBe("cooling");
    story.waitMs(1);
    expect(story.life(3)).not.toBe("cooling");
  });

  it("[TIM-1, CLR-6] of a clearance is the moment at which what it stands on grows old, before its end", () => {
    const story = given().upTo("starting").requested(3).guarded(3);
    story.wait(40);
    story.send("supervisor", "clearToStart", { engine: 3 });
    story.answer("cockpit", story.openSignal("clearToStart"), "readBack", 3);
    // The arc was reported 40 s ago and is fresh for 45 s.
    expect(ahead(story)).toBe(5_000);
    story.wait(5);
    expect(story.told("clearanceVoid")).toMatchObject([{ cause: "condition", unmet: [{ id: "arcClear" }] }]);
  });

  it("[TIM-1] of an override is the end of its wait for the second person", () => {
    const story = given({ type: OVERRIDABLE }).upTo("starting");
    story.say("cockpit", { type: "override", condition: "brakesSet", engine: 3, reason: "as agreed" });
    expect(ahead(story)).toBe(60_000);
    story.say("supervisor", { type: "override", condition: "brakesSet", engine: 3, reason: "as agreed" });
    expect(nextDeadline(story.state)).toBeNull();
  });

  it("[TIM-1] of a session that is over there is none", () => {
    const story = given().upTo("starting");
    story.send("cockpit", "readyToStart", { engine: 3 });
    expect(nextDeadline(story.state)).not.toBeNull();
    story.say("supervisor", { type: "abandon", reason: "weather" });
    expect(nextDeadline(story.state)).toBeNull();
  });
});
