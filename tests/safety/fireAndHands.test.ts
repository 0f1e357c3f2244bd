import { describe, expect, it } from "vitest";
import { askedOf } from "../../shared/asks/asked.ts";
import type { Post } from "../../shared/protocol/posts.ts";
import { nextDeadline } from "../../shared/session/deadline.ts";
import { FOUR } from "../spec/aircraft.ts";
import { bo, di, ed, given, type Story } from "../spec/given.ts";
import { applying, withTiming } from "./types.ts";

const starting = (type = FOUR) => given({ type }).upTo("starting");
const burning = (story: Story, engine = 3) => {
  story.send("fireGuard", "fire", { engine, place: "induction" });
  return story;
};
const crank = (story: Story, engine = 3) => {
  story.send("cockpit", "cranking", { engine });
  return story.told("sent").at(-1)?.kind;
};

describe("cranking to draw a fire in", () => {
  it("[FIR-4] is for the engine that burns, and for no other", () => {
    const story = burning(starting());
    expect(crank(story.copy(), 2)).toBe("turning");
    expect(crank(story, 3)).toBe("cranking");
  });

  it("[FIR-8] is refused with the arc reported not clear, and accepted with the arc not reported", () => {
    const story = starting();
    story.send("groundPower", "arcNotClear", { engine: 3 });
    story.send("groundPower", "arcNotClear", { engine: 2 });
    burning(story);
    expect(crank(story.copy())).toBe("turning");
    story.guarded(3);
    expect(crank(story)).toBe("cranking");
  });

  it("[FIR-8] is refused while another engine cranks, and accepted when that one's starter is released", () => {
    const story = starting();
    story.cranking(2);
    burning(story, 3);
    expect(crank(story.copy())).toBe("turning");
    story.send("cockpit", "startAbandoned", { engine: 2 });
    expect(crank(story)).toBe("cranking");
  });

  it("[FIR-8] is refused before the starting stage", () => {
    for (const stage of ["plan", "brief", "secure", "powerUp", "groundPower"] as const) {
      const story = given().manned().upTo(stage);
      burning(story);
      expect(crank(story)).toBe("turning");
      expect(story.state.holds).toHaveLength(1);
    }
  });
});

describe("two words that a fire is out", () => {
  const out = (story: Story, post: Post) => {
    const ref = story.state.fires[0]?.id ?? 0;
    return story.send(post, "fireOut", { ref }).refusal?.reason;
  };

  it("[FIR-9] must come within the type's limit; after it the first lapses and both must report again", () => {
    const story = burning(starting(withTiming(FOUR, { fireOut: 120 })));
    out(story, "fireGuard");
    expect(nextDeadline(story.state)).toBeLessThanOrEqual(story.now + 120_000);
    story.waitMs(119_999);
    expect(story.state.fires[0]?.outBy?.person).toBe("bo");
    story.waitMs(1);
    expect(story.told("fireOutLapsed")).toHaveLength(1);
    expect(story.state.fires[0]?.outBy).toBeNull();
    expect(out(story, "supervisor")).toBeUndefined();
    expect(story.state.fires).toHaveLength(1);
    expect(out(story, "fireGuard")).toBeUndefined();
    expect(story.state.fires).toEqual([]);
  });

  it("[FIR-9] have no limit where the type gives none", () => {
    const story = burning(starting());
    out(story, "fireGuard");
    story.wait(3_600);
    out(story, "supervisor");
    expect(story.state.fires).toEqual([]);
  });
});

describe("hands on a propeller after a start", () => {
  const hands = (story: Story, engine = 3) => story.send("cockpit", "handlePropeller", { engine }).refusal;

  it("[HND-6] wait the type's time since that engine was last cranked; another engine's propeller does not wait", () => {
    const story = starting(withTiming(FOUR, { handsAfterStart: 90 })).failedStart(3, 10);
    expect(hands(story)).toMatchObject({ reason: "tooSoon", engine: 3, found: "90 s" });
    story.waitMs(89_999);
    expect(hands(story)).toMatchObject({ reason: "tooSoon", found: "1 s" });
    const other = story.copy();
    expect(hands(other, 1)).toBeUndefined();
    story.waitMs(1);
    story.send("fireGuard", "propellerStill", { engine: 3 });
    expect(hands(story)).toBeUndefined();
  });

  it("[HND-6] wait the type's time since that engine last turned, too", () => {
    const story = starting(withTiming(FOUR, { handsAfterStart: 90 })).started(3);
    story.wait(600).send("cockpit", "shutDown", { engine: 3 });
    story.wait(89);
    story.send("fireGuard", "propellerStill", { engine: 3 });
    expect(hands(story)?.reason).toBe("tooSoon");
    story.wait(1);
    expect(hands(story)).toBeUndefined();
  });

  it("[HND-6] do not wait where the type gives no time", () => {
    const story = starting().failedStart(3, 10);
    story.send("fireGuard", "propellerStill", { engine: 3 });
    expect(hands(story)).toBeUndefined();
  });
});

describe("hands off", () => {
  const asked = (post: "fireGuard" | "groundPower") => {
    const story = given({ type: applying("bladesCounted") }).upTo("secure");
    story.send(post, "handlePropeller", { engine: 3 });
    story.answer("cockpit", story.openSignal("handlePropeller"), "authorise");
    return story;
  };
  const free = (story: Story, post: Post) => story.send(post, "propellerFree", { engine: 3 }).refusal?.reason;
  const says = (story: Story, post: Post) =>
    askedOf(story.state, post, story.now).some((a) => a.choices.some((c) => c.word === "propellerFree"));

  it("[HND-7] is said by the post whose hands they were, or by the guard who sees them", () => {
    expect(free(asked("groundPower"), "groundPower")).toBeUndefined();
    expect(free(asked("groundPower"), "fireGuard")).toBeUndefined();
    expect(free(asked("fireGuard"), "fireGuard")).toBeUndefined();
    const guards = asked("fireGuard");
    expect(free(guards, "groundPower")).toBe("wrongPost");
    expect(guards.state.handling?.engine).toBe(3);
  });

  it("[HND-7, ASK-2] is asked of the post whose hands they are", () => {
    expect([says(asked("fireGuard"), "fireGuard"), says(asked("fireGuard"), "groundPower")]).toEqual([
      true,
      false,
    ]);
    expect(says(asked("groundPower"), "groundPower")).toBe(true);
  });
});

describe("a bystander's hold", () => {
  const held = () => {
    const story = starting(withTiming(FOUR, { bystanderHold: 60 }));
    const ref = story.does(ed, { type: "send", kind: "hold" }).events[0]?.seq ?? 0;
    const release = (who = di, note: string | undefined = "looked at it") =>
      story.does(who, { type: "send", kind: "release", ref, ...(note === undefined ? {} : { note }) }).refusal
        ?.reason;
    const asks = () => askedOf(story.state, "supervisor", story.now).some((a) => a.say === "absentHold");
    return { story, release, asks };
  };

  it("[HLD-6] is released by its owner at once, by the supervisor after the type's time with a reason", () => {
    expect(held().release(ed)).toBeUndefined();
    const { story, release, asks } = held();
    story.waitMs(59_999);
    expect([release(), asks()]).toEqual(["notYourHold", false]);
    story.waitMs(1);
    expect(asks()).toBe(true);
    expect(release(bo)).toBe("notYourHold");
    expect(release()).toBeUndefined();
    expect(story.state.holds).toEqual([]);
  });
});
