import { describe, expect, it } from "vitest";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import { ed, fay, given, type Story } from "../spec/given.ts";
import { SOUNDING } from "./types.ts";

const starting = () => given({ type: SOUNDING }).upTo("starting");
const badVolts = () => {
  const story = starting();
  story.volts(20);
  return story;
};
const alertOf = (story: Story, kind: string) => story.state.alerts.find((a) => a.kind === kind);
const idOf = (story: Story, kind: string) => alertOf(story, kind)?.id ?? 0;
const acknowledge = (story: Story, post: Post, kind: string) =>
  story.say(post, { type: "acknowledgeAlert", alert: idOf(story, kind) }).refusal?.reason;
const shelve = (story: Story, post: Post, kind: string, minutes: number) =>
  story.say(post, { type: "shelveAlert", alert: idOf(story, kind), minutes }).refusal?.reason;
const again = (story: Story) => story.told("alertAgain").length;
const raised = (story: Story, kind: string) => story.told("alertRaised").filter((f) => f.kind === kind);

describe("what latches", () => {
  it.each(["hold", "cutAll", "fire"] as const)(
    "[ALR-5] a %s alerts every post except the one that raised it",
    (kind) => {
      const story = starting();
      story.send("fireGuard", kind);
      const name = kind === "cutAll" ? "cut" : kind;
      expect(alertOf(story, name)?.posts).toEqual({
        cockpit: "activeUnacknowledged",
        fireGuard: "activeAcknowledged",
        groundPower: "activeUnacknowledged",
        supervisor: "activeUnacknowledged",
      });
    },
  );

  it("[ALR-5] an observer's hold is an alert that no post has acknowledged", () => {
    const story = starting();
    story.does(ed, { type: "send", kind: "hold" });
    expect(new Set(Object.values(alertOf(story, "hold")?.posts ?? {}))).toEqual(
      new Set(["activeUnacknowledged"]),
    );
  });

  it("[ALR-5] an answer to the stop's signal acknowledges the alert for that post only", () => {
    const story = starting();
    const hold = story.send("fireGuard", "hold").events[0]?.seq ?? 0;
    story.answer("cockpit", hold, "received");
    expect(alertOf(story, "hold")?.posts).toMatchObject({
      cockpit: "activeAcknowledged",
      supervisor: "activeUnacknowledged",
    });
  });

  it("[ALR-3, ALR-5] an alert whose cause has ended stays until every post has acknowledged it, and is then reset", () => {
    const story = starting();
    const hold = story.send("fireGuard", "hold").events[0]?.seq ?? 0;
    story.send("fireGuard", "release", { ref: hold });
    expect(alertOf(story, "hold")).toMatchObject({
      active: false,
      posts: { cockpit: "latchedUnacknowledged" },
    });
    for (const post of ["cockpit", "groundPower"] as const)
      expect(acknowledge(story, post, "hold")).toBeUndefined();
    expect(story.told("alertReset")).toEqual([]);
    acknowledge(story, "supervisor", "hold");
    expect(story.told("alertReset")).toHaveLength(1);
    expect(story.state.alerts).toEqual([]);
  });

  it("[ALR-3, ALR-5] an alert does not wait for a vacant post, but waits for a post that is taken later", () => {
    const story = starting();
    const hold = story.send("fireGuard", "hold").events[0]?.seq ?? 0;
    story.say("groundPower", { type: "leavePost", post: "groundPower" });
    story.send("fireGuard", "release", { ref: hold });
    story.say("groundPower", { type: "claimPost", post: "groundPower" });
    acknowledge(story, "cockpit", "hold");
    acknowledge(story, "supervisor", "hold");
    expect(story.state.alerts).toHaveLength(1);
    story.say("groundPower", { type: "leavePost", post: "groundPower" });
    expect(story.state.alerts).toEqual([]);
  });

  it.each(["hold", "cutAll", "fire"] as const)(
    "[ALR-6] the alert of a %s cannot be shelved, before or after its end",
    (kind) => {
      const story = starting();
      const id = story.does(ed, { type: "send", kind }).events[0]?.seq ?? 0;
      const name = kind === "cutAll" ? "cut" : kind;
      expect(shelve(story, "cockpit", name, 5)).toBe("notShelvable");
      if (kind !== "hold") return;
      story.does(ed, { type: "send", kind: "release", ref: id });
      expect(alertOf(story, "hold")?.active).toBe(false);
      expect(shelve(story, "cockpit", name, 5)).toBe("notShelvable");
    },
  );
});

describe("shelving", () => {
  it.each(["oilFirstLate", "oilNormalLate", "starterLimit", "guardMissing", "turningUncleared"] as const)(
    "[ALR-7] %s cannot be shelved, because somebody must act on it now",
    (kind) => {
      const story = starting();
      if (kind === "turningUncleared") story.send("fireGuard", "turning", { engine: 3 });
      else if (kind === "starterLimit") story.cranking(3);
      else story.caught(3);
      if (kind === "guardMissing") story.send("fireGuard", "guardAway");
      story.wait(kind === "starterLimit" ? 41 : 11);
      expect(alertOf(story, kind)?.active).toBe(true);
      expect(shelve(story, "cockpit", kind, 5)).toBe("notShelvable");
    },
  );

  it("[ALR-7] lasts one to fifteen minutes, and hides the alert from the post that shelved it only", () => {
    const story = badVolts();
    expect(shelve(story, "cockpit", "groundPowerOutOfRange", 16)).toBe("outOfRange");
    expect(shelve(story, "fireGuard", "groundPowerOutOfRange", 5)).toBe("notAddressed");
    expect(shelve(story, "cockpit", "groundPowerOutOfRange", 15)).toBeUndefined();
    expect(alertOf(story, "groundPowerOutOfRange")?.posts).toEqual({
      cockpit: "shelved",
      groundPower: "activeUnacknowledged",
    });
  });

  it("[ALR-7] ends at its minute, not a millisecond before, and the alert sounds 30 s later", () => {
    const story = badVolts();
    acknowledge(story, "groundPower", "groundPowerOutOfRange");
    shelve(story, "cockpit", "groundPowerOutOfRange", 1);
    story.waitMs(59_999);
    expect(alertOf(story, "groundPowerOutOfRange")?.posts.cockpit).toBe("shelved");
    const id = idOf(story, "groundPowerOutOfRange");
    const sounded = () => story.told("alertAgain").filter((f) => f.alert === id).length;
    const before = sounded();
    story.waitMs(1);
    expect(alertOf(story, "groundPowerOutOfRange")?.posts.cockpit).toBe("activeUnacknowledged");
    story.waitMs(29_999);
    expect(sounded()).toBe(before);
    story.waitMs(1);
    expect(sounded()).toBe(before + 1);
  });

  it("[ALR-7] cannot be lengthened while it lasts, and a shelved alert cannot be acknowledged", () => {
    const story = badVolts();
    shelve(story, "cockpit", "groundPowerOutOfRange", 1);
    expect(shelve(story, "cockpit", "groundPowerOutOfRange", 15)).toBe("alreadyDone");
    expect(acknowledge(story, "cockpit", "groundPowerOutOfRange")).toBe("alreadyDone");
    story.waitMs(60_000);
    expect(alertOf(story, "groundPowerOutOfRange")?.posts.cockpit).toBe("activeUnacknowledged");
  });

  it("[ALR-7] can be repeated; the alert comes back each time, and the record says so", () => {
    const story = badVolts();
    for (let i = 1; i <= 5; i += 1) {
      expect(shelve(story, "cockpit", "groundPowerOutOfRange", 15)).toBeUndefined();
      story.wait(15 * 60);
      expect(story.told("alertUnshelved").filter((f) => f.post === "cockpit")).toHaveLength(i);
      expect(alertOf(story, "groundPowerOutOfRange")?.posts.cockpit).toBe("activeUnacknowledged");
    }
  });

  it("[ALR-7] ends when the post changes hands", () => {
    const story = badVolts();
    shelve(story, "cockpit", "groundPowerOutOfRange", 15);
    story.say("cockpit", { type: "offerPost", post: "cockpit", to: "fay" });
    story.does(fay, { type: "acceptPost", post: "cockpit" });
    expect(alertOf(story, "groundPowerOutOfRange")).toMatchObject({
      posts: { cockpit: "activeUnacknowledged" },
      shelvedUntil: {},
    });
  });

  it("[ALR-3] leaves no alert behind whose cause ended meanwhile", () => {
    const story = badVolts();
    acknowledge(story, "groundPower", "groundPowerOutOfRange");
    shelve(story, "cockpit", "groundPowerOutOfRange", 1);
    story.volts(28);
    story.wait(60);
    expect(alertOf(story, "groundPowerOutOfRange")).toBeUndefined();
  });
});

describe("sounding again", () => {
  it("[ALR-8] happens every 30 s until every held post has acknowledged (IMO MSC.302(87))", () => {
    const story = starting();
    story.does(ed, { type: "send", kind: "hold" });
    story.waitMs(29_999);
    expect(story.told("alertAgain").map((f) => f.alert)).toEqual([]);
    story.waitMs(1);
    const once = [idOf(story, "hold")];
    expect(
      story
        .told("alertAgain")
        .map((f) => f.alert)
        .filter((a) => a === once[0]),
    ).toEqual(once);
    story.wait(60);
    expect(story.told("alertAgain").filter((f) => f.alert === once[0])).toHaveLength(3);
    for (const post of POSTS) acknowledge(story, post, "hold");
    for (const post of ["cockpit", "supervisor"] as const) acknowledge(story, post, "unanswered");
    const heard = again(story);
    story.wait(600);
    expect(again(story)).toBe(heard);
  });

  it("[ALR-8] happens once, not a hundred times, after a server did not run for an hour", () => {
    const story = starting();
    story.does(ed, { type: "send", kind: "hold" });
    const id = idOf(story, "hold");
    story.unseen(3_600_000).waitMs(0);
    expect(story.told("alertAgain").filter((f) => f.alert === id)).toHaveLength(1);
  });

  it("[ALR-8] does not happen while nobody holds a post", () => {
    const story = given({ type: SOUNDING });
    story.does(ed, { type: "send", kind: "hold" });
    story.wait(3_600);
    expect(again(story)).toBe(0);
    story.say("cockpit", { type: "claimPost", post: "cockpit" });
    expect(again(story)).toBe(1);
  });
});

describe("a cause that comes and goes", () => {
  it("[ALR-3] is one alert until every post has dealt with it", () => {
    const story = starting();
    for (let i = 0; i < 20; i += 1) {
      story.volts(25);
      story.volts(28);
    }
    expect(raised(story, "groundPowerOutOfRange")).toHaveLength(20);
    expect(story.state.alerts).toHaveLength(1);
    acknowledge(story, "cockpit", "groundPowerOutOfRange");
    acknowledge(story, "groundPower", "groundPowerOutOfRange");
    expect(story.state.alerts).toEqual([]);
  });

  it("[ALR-3] alerts a post again that acknowledged while the cause was gone", () => {
    const story = starting();
    story.volts(25);
    acknowledge(story, "cockpit", "groundPowerOutOfRange");
    story.volts(28);
    expect(alertOf(story, "groundPowerOutOfRange")?.posts).toEqual({
      cockpit: "normal",
      groundPower: "returnedUnacknowledged",
    });
    story.volts(25);
    expect(alertOf(story, "groundPowerOutOfRange")?.posts).toEqual({
      cockpit: "activeUnacknowledged",
      groundPower: "activeUnacknowledged",
    });
  });

  it("[ALR-3, ALR-7] leaves a shelved alert on the shelf", () => {
    const story = starting();
    story.volts(25);
    shelve(story, "cockpit", "groundPowerOutOfRange", 5);
    story.volts(28);
    story.volts(25);
    expect(alertOf(story, "groundPowerOutOfRange")).toMatchObject({
      active: true,
      posts: { cockpit: "shelved" },
    });
  });
});
