import { describe, expect, it } from "vitest";
import { askedOf } from "../../shared/asks/asked.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import { ALERT_KINDS } from "../../shared/session/state.ts";
import { ASK_WORDS } from "../../shared/words/asks.ts";
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

  it("[ALR-2] each addressed post for itself", () => {
    const story = lateOil();
    expect(acknowledge(story, "fireGuard")).toBe("notAddressed");
    expect(acknowledge(story, "supervisor")).toBeUndefined();
    expect(story.state.alerts[0]?.acknowledged).toEqual(["supervisor"]);
    expect(acknowledge(story, "supervisor")).toBe("alreadyDone");
    const asks = (post: "cockpit" | "supervisor") =>
      askedOf(story.state, post, story.now).filter((a) => a.key.startsWith("alert:"));
    expect(asks("cockpit")).toHaveLength(1);
    expect(asks("supervisor")).toHaveLength(0);
  });

  it("[ALR-3] ended first, then acknowledged by all", () => {
    const story = lateOil();
    story.oil(3, 20);
    acknowledge(story, "cockpit");
    expect(story.state.alerts).toHaveLength(1);
    acknowledge(story, "supervisor");
    expect(story.state.alerts).toEqual([]);
    expect(acknowledge(story, "supervisor")).toBe("nothingOpen");
  });

  it("[ALR-3] acknowledged first, then ended", () => {
    const story = lateOil();
    acknowledge(story, "cockpit");
    acknowledge(story, "supervisor");
    expect(story.state.alerts).toMatchObject([{ active: true }]);
    story.oil(3, 20);
    expect(story.state.alerts).toEqual([]);
  });

  it("[ALR-3] a post that nobody holds is not waited for", () => {
    const story = lateOil();
    acknowledge(story, "cockpit");
    story.oil(3, 20);
    story.say("supervisor", { type: "leavePost", post: "supervisor" });
    expect(story.state.alerts).toEqual([]);
  });

  it("[ALR-2] the next holder has not acknowledged for the last one's post anew: the post has", () => {
    const story = lateOil();
    acknowledge(story, "cockpit");
    story.say("cockpit", { type: "leavePost", post: "cockpit" });
    story.does(fay, { type: "claimPost", post: "cockpit" });
    expect(story.state.alerts[0]?.acknowledged).toEqual(["cockpit"]);
  });

  it.each(["hold", "cut", "cutAll", "fire"] as const)(
    "[ALR-5] a %s raises none by itself, and acknowledging nothing ends it",
    (kind) => {
      const story = starting();
      const id = story.does(ed, { type: "send", kind }).events[0]?.seq ?? 0;
      expect(story.alerts).toEqual([]);
      for (const post of POSTS)
        expect(story.say(post, { type: "acknowledgeAlert", alert: id }).refusal?.reason).toBe("nothingOpen");
      for (const post of POSTS) story.answer(post, id, "received");
      const { holds, cuts, fires } = story.state;
      expect(holds.length + cuts.length + fires.length).toBe(1);
    },
  );

  it.each(ALERT_KINDS)("[ALR-1, ASK-3] %s has words", (kind) => {
    expect(ASK_WORDS[`alert.${kind}`]).toBeDefined();
  });
});
