import { describe, expect, it } from "vitest";
import { askedOf } from "../../shared/asks/asked.ts";
import { ALERT_KINDS } from "../../shared/protocol/alerts.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import { asks } from "../../shared/words/en/asks.ts";
import { ed, fay, given, type Story } from "./given.ts";

const starting = () => given().upTo("starting");
const lateOil = () => starting().caught(3).waitMs(5_001);
const alertId = (story: Story) => story.state.alerts[0]?.id ?? 0;
const acknowledge = (story: Story, post: (typeof POSTS)[number]) =>
  story.say(post, { type: "acknowledgeAlert", alert: alertId(story) }).refusal?.reason;

describe("alerts", () => {
  it("[ALR-1] raised once while true, ended by itself", () => {
    const story = lateOil();
    story.wait(60).send("fireGuard", "guardAway");
    expect(story.told("alertRaised").filter((f) => f.kind === "oilFirstLate")).toHaveLength(1);
    story.oil(3, 20);
    expect(story.told("alertEnded").map((f) => f.alert)).toEqual([alertId(story)]);
  });

  it("[ALR-2] is acknowledged by each addressed post for itself", () => {
    const story = lateOil();
    expect(acknowledge(story, "fireGuard")).toBe("notAddressed");
    expect(acknowledge(story, "supervisor")).toBeUndefined();
    expect(story.state.alerts[0]?.posts).toEqual({
      cockpit: "activeUnacknowledged",
      supervisor: "activeAcknowledged",
    });
    expect(acknowledge(story, "supervisor")).toBe("alreadyDone");
    const asks = (post: "cockpit" | "supervisor") =>
      askedOf(story.state, post, story.now).filter((a) => a.key.startsWith("alert:"));
    expect(asks("cockpit")).toHaveLength(1);
    expect(asks("supervisor")).toHaveLength(0);
  });

  it("[ALR-3] is over when its cause ended and all acknowledged later", () => {
    const story = lateOil();
    const alert = alertId(story);
    story.oil(3, 20);
    acknowledge(story, "cockpit");
    expect(story.state.alerts).toHaveLength(1);
    acknowledge(story, "supervisor");
    expect(story.state.alerts).toEqual([]);
    expect(story.say("supervisor", { type: "acknowledgeAlert", alert }).refusal?.reason).toBe("nothingOpen");
  });

  it("[ALR-3] is over when all acknowledged and its cause ended later", () => {
    const story = lateOil();
    acknowledge(story, "cockpit");
    acknowledge(story, "supervisor");
    expect(story.state.alerts).toMatchObject([{ active: true }]);
    story.oil(3, 20);
    expect(story.state.alerts).toEqual([]);
  });

  it("[ALR-3] does not wait for a vacant post", () => {
    const story = lateOil();
    acknowledge(story, "cockpit");
    story.oil(3, 20);
    story.say("supervisor", { type: "leavePost", post: "supervisor" });
    expect(story.state.alerts.map((a) => a.kind)).toEqual(["postVacant"]);
  });

  it("[ALR-2] keeps a post's acknowledgement when the post changes hands", () => {
    const story = lateOil();
    acknowledge(story, "cockpit");
    story.say("cockpit", { type: "leavePost", post: "cockpit" });
    story.does(fay, { type: "claimPost", post: "cockpit" });
    expect(story.state.alerts[0]?.posts.cockpit).toBe("activeAcknowledged");
  });

  it.each(["hold", "cut", "cutAll", "fire"] as const)(
    "[ALR-5] a %s is an alert to every post; acknowledging it ends nothing",
    (kind) => {
      const story = starting();
      const id = story.does(ed, { type: "send", kind }).events[0]?.seq ?? 0;
      expect(story.state.alerts).toMatchObject([
        { kind: kind === "cutAll" ? "cut" : kind, ref: id, active: true },
      ]);
      for (const post of POSTS) expect(acknowledge(story, post)).toBeUndefined();
      const { holds, cuts, fires, alerts } = story.state;
      expect(holds.length + cuts.length + fires.length).toBe(1);
      expect(alerts).toMatchObject([{ active: true }]);
    },
  );

  it("[ALR-5] stays after its cause ended until every held post has acknowledged, and is then reset", () => {
    const story = starting();
    const hold = story.does(ed, { type: "send", kind: "hold" }).events[0]?.seq ?? 0;
    for (const post of ["cockpit", "groundPower", "supervisor"] as const)
      story.answer(post, hold, "received");
    story.does(ed, { type: "send", kind: "release", ref: hold });
    expect(story.state.alerts).toMatchObject([
      { active: false, posts: { cockpit: "latchedAcknowledged", fireGuard: "latchedUnacknowledged" } },
    ]);
    acknowledge(story, "fireGuard");
    expect(story.state.alerts).toEqual([]);
    expect(story.told("alertReset")).toHaveLength(1);
  });

  it("[ALR-5] counts as acknowledged by the post that raised it, and by an answer to its signal", () => {
    const story = starting();
    const hold = story.send("fireGuard", "hold").events[0]?.seq ?? 0;
    story.answer("cockpit", hold, "received");
    expect(story.state.alerts[0]?.posts).toEqual({
      cockpit: "activeAcknowledged",
      fireGuard: "activeAcknowledged",
      groundPower: "activeUnacknowledged",
      supervisor: "activeUnacknowledged",
    });
  });

  it.each(ALERT_KINDS)("[ALR-1, ASK-3] %s has words", (kind) => {
    expect(Object.keys(asks)).toContain(`alert.${kind}`);
  });
});
