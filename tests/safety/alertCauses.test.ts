import { describe, expect, it } from "vitest";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import { ada, cy, di, ed, given, type Story } from "../spec/given.ts";
import { SOUNDING } from "./types.ts";

const starting = () => given({ type: SOUNDING }).upTo("starting");
const alertOf = (story: Story, kind: string) => story.state.alerts.find((a) => a.kind === kind);
const idOf = (story: Story, kind: string) => alertOf(story, kind)?.id ?? 0;
const acknowledge = (story: Story, post: Post, kind: string) =>
  story.say(post, { type: "acknowledgeAlert", alert: idOf(story, kind) }).refusal?.reason;
const raised = (story: Story, kind: string) => story.told("alertRaised").filter((f) => f.kind === kind);

describe("a guard missed", () => {
  it.each(["cranking", "caught", "running"] as const)(
    "[ALR-10] %s with the guard gone alerts every post",
    (life) => {
      const story = starting();
      if (life === "cranking") story.cranking(3);
      else story[life](3);
      expect(alertOf(story, "guardMissing")).toBeUndefined();
      story.send("fireGuard", "guardAway");
      expect(Object.keys(alertOf(story, "guardMissing")?.posts ?? {})).toEqual([...POSTS]);
      story.send("fireGuard", "guardInPlace", { engine: 3 });
      expect(alertOf(story, "guardMissing")?.active).toBe(false);
    },
  );

  it("[ALR-10] none once stable, none for one that stands", () => {
    const story = starting().started(3);
    story.send("fireGuard", "guardAway");
    expect(raised(story, "guardMissing")).toEqual([]);
  });

  it("[ALR-10] a guard who reports at two engines at once stands at the last one", () => {
    const story = starting().started(3).caught(4);
    story.send("fireGuard", "guardInPlace", { engine: 3 });
    story.send("fireGuard", "guardInPlace", { engine: 4 });
    expect(story.state.guard?.engine).toBe(4);
    expect(raised(story, "guardMissing").map((f) => f.engine)).toEqual([4]);
    expect(alertOf(story, "guardMissing")?.active).toBe(false);
  });
});

describe("the starter's limit", () => {
  const burning = () => {
    const story = starting();
    story.cranking(3);
    story.wait(10).send("fireGuard", "fire", { engine: 3, place: "induction" });
    return story;
  };

  it("[ALR-9] passed under a fire it is suppressed by design, on the record", () => {
    const story = burning().waitMs(30_000);
    expect(raised(story, "starterLimit")).toEqual([]);
    story.waitMs(1);
    expect(raised(story, "starterLimit")).toMatchObject([{ suppressedBy: "fire" }]);
    expect(alertOf(story, "starterLimit")?.posts).toEqual({ cockpit: "suppressed" });
    expect(acknowledge(story, "cockpit", "starterLimit")).toBe("alreadyDone");
  });

  it("[ALR-9] live again when the fire is out and the starter still turns; heard 30 s later, not at once", () => {
    const story = burning().wait(100);
    const fire = story.state.fires[0]?.id ?? 0;
    story.send("fireGuard", "fireOut", { ref: fire });
    expect(alertOf(story, "starterLimit")?.posts.cockpit).toBe("suppressed");
    const limit = idOf(story, "starterLimit");
    story.send("cockpit", "fireOut", { ref: fire });
    expect(alertOf(story, "starterLimit")?.posts.cockpit).toBe("activeUnacknowledged");
    const sounded = () => story.told("alertAgain").filter((f) => f.alert === limit).length;
    story.waitMs(29_999);
    expect(sounded()).toBe(0);
    story.waitMs(1);
    expect(sounded()).toBe(1);
  });

  it("[ALR-9, ALR-3] let go before the fire is out, it is gone with the fire", () => {
    const story = burning().wait(40);
    story.send("cockpit", "startAbandoned", { engine: 3 });
    expect(alertOf(story, "starterLimit")?.active).toBe(false);
    const fire = story.state.fires[0]?.id ?? 0;
    story.send("fireGuard", "fireOut", { ref: fire });
    story.send("supervisor", "fireOut", { ref: fire });
    expect(alertOf(story, "starterLimit")).toBeUndefined();
  });

  it.each([
    [40_000, 0],
    [40_001, 1],
  ])("[ALR-11] held %i ms: recorded as exceeded %i times", (held, times) => {
    const story = starting();
    story.cranking(3);
    story.waitMs(held).send("cockpit", "startAbandoned", { engine: 3 });
    expect(story.told("exceeded")).toHaveLength(times);
    story.wait(60);
    expect(story.told("exceeded")).toHaveLength(times);
  });

  it.each([
    ["caught", (s: Story) => s.send("cockpit", "caught", { engine: 3 })],
    ["given up", (s: Story) => s.send("cockpit", "startAbandoned", { engine: 3 })],
    ["shut down", (s: Story) => s.send("cockpit", "shutDown", { engine: 3 })],
    ["cut", (s: Story) => s.answer("cockpit", s.send("fireGuard", "cutAll").events[0]?.seq ?? 0, "done")],
    [
      "under fire",
      (s: Story) => {
        s.send("fireGuard", "fire", { engine: 3, place: "induction" });
        return s.send("cockpit", "caught", { engine: 3 });
      },
    ],
  ] as const)("[ALR-11] 52 s of 40, %s: the seconds are kept with the engine", (_how, end) => {
    const story = starting();
    story.cranking(3);
    story.wait(52);
    expect(end(story).refusal).toBeUndefined();
    expect(story.state.engines[2]?.exceeded).toMatchObject([
      { limit: "starterTime", allowed: 40, found: 52 },
    ]);
  });

  it("[ALR-11] two engagements past it are two", () => {
    const story = starting().failedStart(3, 41).wait(60);
    story.failedStart(3, 42);
    expect(story.told("exceeded").map((f) => f.found)).toEqual([41, 42]);
  });
});

describe("a thousand holds", () => {
  it("[HLD-5, ALR-5] each is taken, each is ended by who raised it, and nothing is left", () => {
    const story = starting();
    const raisers = [ada, cy, di];
    const many = 1_000;
    for (let i = 0; i < many; i += 1) story.does(raisers[i % 3] ?? ada, { type: "send", kind: "hold" });
    expect(story.state.holds).toHaveLength(many);
    expect(story.state.alerts).toHaveLength(many);
    for (const hold of story.state.holds) {
      const who = raisers.find((p) => p.id === hold.person) ?? ed;
      expect(story.does(who, { type: "send", kind: "release", ref: hold.id }).refusal).toBeUndefined();
    }
    expect(story.state.holds).toEqual([]);
    expect(story.state.signals.filter((s) => s.kind === "hold")).toEqual([]);
    for (const post of POSTS) story.say(post, { type: "leavePost", post });
    expect(story.state.alerts).toEqual([]);
    expect(story.replayed()).toEqual(story.state);
  }, 60_000);
});
