import { describe, expect, it } from "vitest";
import { askedOf } from "../../shared/asks/asked.ts";
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
    "[ALR-10] an engine that is %s while the guard is gone alerts every post",
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

  it("[ALR-10] raises no alert for a stable engine, or for one that does not turn", () => {
    const story = starting().started(3);
    story.send("fireGuard", "guardAway");
    expect(raised(story, "guardMissing")).toEqual([]);
  });

  it("[ALR-10] counts a guard who reports at two engines as standing at the last one", () => {
    const story = starting().started(3).caught(4);
    story.send("fireGuard", "guardInPlace", { engine: 3 });
    story.send("fireGuard", "guardInPlace", { engine: 4 });
    expect(story.state.guard?.engine).toBe(4);
    expect(raised(story, "guardMissing").map((f) => f.engine)).toEqual([4]);
    expect(alertOf(story, "guardMissing")?.active).toBe(false);
  });
});

describe("an alert to a vacant post", () => {
  const late = (story: Story) => story.waitMs(40_001);

  it("[ALR-15] goes to every post when it is raised", () => {
    const story = starting();
    story.cranking(3);
    story.say("supervisor", { type: "vacatePost", post: "cockpit", reason: "taken ill" });
    late(story);
    expect(Object.keys(alertOf(story, "starterLimit")?.posts ?? {})).toEqual([...POSTS]);
    expect(acknowledge(story, "supervisor", "starterLimit")).toBeUndefined();
  });

  it("[ALR-15] goes to every other post when its holder leaves the post while the alert lasts, acknowledged or not", () => {
    const story = starting();
    story.cranking(3);
    late(story);
    expect(Object.keys(alertOf(story, "starterLimit")?.posts ?? {})).toEqual(["cockpit"]);
    acknowledge(story, "cockpit", "starterLimit");
    story.say("cockpit", { type: "leavePost", post: "cockpit" });
    expect(alertOf(story, "starterLimit")?.posts).toEqual({
      cockpit: "activeAcknowledged",
      fireGuard: "activeUnacknowledged",
      groundPower: "activeUnacknowledged",
      supervisor: "activeUnacknowledged",
    });
    expect(story.replayed()).toEqual(story.state);
  });

  it("[ALR-15] stays suppressed by a fire when it goes to other posts", () => {
    const story = starting();
    story.cranking(3);
    story.send("fireGuard", "fire", { engine: 3, place: "induction" });
    late(story);
    story.say("cockpit", { type: "leavePost", post: "cockpit" });
    expect(new Set(Object.values(alertOf(story, "starterLimit")?.posts ?? {}))).toEqual(
      new Set(["suppressed"]),
    );
  });
});

describe("nobody in the cockpit", () => {
  const left = () => {
    const story = starting();
    story.cranking(3);
    story.say("cockpit", { type: "leavePost", post: "cockpit" });
    return story;
  };

  it("[ALR-13, ASK-2] the supervisor is asked of each engine that turns, and reports that it caught and was shut down", () => {
    const story = left();
    const asked = () => askedOf(story.state, "supervisor", story.now).filter((a) => a.say === "unattended");
    expect(asked().map((a) => [a.engine, a.choices.map((c) => c.word)])).toEqual([
      [3, ["caught", "shutDown"]],
    ]);
    expect(story.send("supervisor", "caught", { engine: 3 }).refusal).toBeUndefined();
    expect(asked()[0]?.choices.map((c) => c.word)).toEqual(["shutDown"]);
    expect(story.send("supervisor", "shutDown", { engine: 3 }).refusal).toBeUndefined();
    expect(asked()).toEqual([]);
  });

  it("[ALR-13] lets the supervisor never report an engine stable, and report nothing while somebody holds the cockpit", () => {
    const story = starting().running(3);
    expect(story.send("supervisor", "shutDown", { engine: 3 }).refusal?.reason).toBe("wrongPost");
    story.say("cockpit", { type: "leavePost", post: "cockpit" });
    expect(story.send("supervisor", "started", { engine: 3 }).refusal?.reason).toBe("wrongPost");
    const held = starting();
    held.cranking(3);
    expect(held.send("supervisor", "caught", { engine: 3 }).refusal?.reason).toBe("wrongPost");
  });
});

describe("a post left", () => {
  it.each(["fireGuard", "groundPower"] as const)(
    "[ALR-14] %s left while an engine turns alerts every post",
    (post) => {
      const story = starting().started(3);
      expect(alertOf(story, "postVacant")).toBeUndefined();
      story.say(post, { type: "leavePost", post });
      expect(Object.keys(alertOf(story, "postVacant")?.posts ?? {})).toEqual([...POSTS]);
      const ask = askedOf(story.state, "supervisor", story.now).find((a) => a.say === "alert.postVacant");
      expect(ask?.detail).toEqual({ is: "posts", posts: [post] });
      story.say(post, { type: "claimPost", post });
      expect(alertOf(story, "postVacant")?.active).toBe(false);
    },
  );

  it("[ALR-14] raises no alert while nothing turns, or for a post that is not needed", () => {
    const still = starting();
    still.say("fireGuard", { type: "leavePost", post: "fireGuard" });
    expect(raised(still, "postVacant")).toEqual([]);
    const alone = given({ type: SOUNDING, powerSource: "batteries" }).upTo("starting").started(3);
    alone.say("groundPower", { type: "leavePost", post: "groundPower" });
    expect(raised(alone, "postVacant")).toEqual([]);
  });
});

describe("the starter's limit", () => {
  const burning = () => {
    const story = starting();
    story.cranking(3);
    story.wait(10).send("fireGuard", "fire", { engine: 3, place: "induction" });
    return story;
  };

  it("[ALR-9] raises an alert suppressed by design when it is passed during a fire, and the record says so", () => {
    const story = burning().waitMs(30_000);
    expect(raised(story, "starterLimit")).toEqual([]);
    story.waitMs(1);
    expect(raised(story, "starterLimit")).toMatchObject([{ suppressedBy: "fire" }]);
    expect(alertOf(story, "starterLimit")?.posts).toEqual({ cockpit: "suppressed" });
    expect(acknowledge(story, "cockpit", "starterLimit")).toBe("alreadyDone");
  });

  it("[ALR-9] shows the alert when the fire is out and the starter still turns, and sounds it 30 s later", () => {
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

  it("[ALR-9, ALR-3] raises no alert after the fire if the starter was released before", () => {
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
  ])("[ALR-11] an engagement of %i ms is recorded as exceeded %i times", (held, times) => {
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
  ] as const)(
    "[ALR-11] an engagement of 52 s over a limit of 40 s, %s: the seconds are kept with the engine",
    (_how, end) => {
      const story = starting();
      story.cranking(3);
      story.wait(52);
      expect(end(story).refusal).toBeUndefined();
      expect(story.state.engines[2]?.exceeded).toMatchObject([
        { limit: "starterTime", allowed: 40, found: 52 },
      ]);
    },
  );

  it("[ALR-11] records two engagements past the limit separately", () => {
    const story = starting().failedStart(3, 41).wait(60);
    story.failedStart(3, 42);
    expect(story.told("exceeded").map((f) => f.found)).toEqual([41, 42]);
  });
});

describe("hundreds of holds", () => {
  it("[HLD-5, ALR-5] are all taken, each is released by the person who raised it, and none is left", () => {
    const story = starting();
    const raisers = [ada, cy, di];
    const many = 300;
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
  });
});
