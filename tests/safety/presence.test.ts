import { describe, expect, it } from "vitest";
import { askedOf } from "../../shared/asks/asked.ts";
import type { Post } from "../../shared/protocol/posts.ts";
import { nextDeadline } from "../../shared/session/deadline.ts";
import { ada, bo, given, onDevice, type Story } from "../spec/given.ts";
import { WATCHED, WATCHED_AGAIN } from "./types.ts";

const starting = () => given({ type: WATCHED }).upTo("starting");
/** Engine 3 is requested, and everybody except `silent` has just been heard. */
const requested = () => starting().requested(3);
const touch = (story: Story, ...posts: Post[]) => {
  for (const post of posts) story.say(post, { type: "present" });
  return story;
};
const EVERYBODY: Post[] = ["cockpit", "fireGuard", "groundPower", "supervisor"];
const but = (post: Post) => EVERYBODY.filter((p) => p !== post);
const lapsed = (story: Story) => story.told("silenceHeld").flatMap((f) => f.posts);
const silentAlert = (story: Story) => story.state.alerts.find((a) => a.kind === "postSilent");
const asks = (story: Story, post: Post) =>
  askedOf(story.state, post, story.now).filter((a) => a.key === "present").length;

/** Only the guard is silent: the others touch every ten seconds. */
function guardSilent(story: Story, ms: number): Story {
  touch(story, ...EVERYBODY);
  for (let left = ms; left > 0; left -= 10_000) {
    story.waitMs(Math.min(left, 10_000));
    if (left > 10_000) touch(story, ...but("fireGuard"));
  }
  return story;
}

describe("presence in a live start", () => {
  it("[PRS-8] is asked for at 15 s of silence, not a millisecond before", () => {
    const story = touch(requested(), ...EVERYBODY).waitMs(14_999);
    expect(asks(story, "fireGuard")).toBe(0);
    story.waitMs(1);
    expect(asks(story, "fireGuard")).toBe(1);
  });

  it("[PAN-17] is asked for after everything of the start, because every answer is a touch too", () => {
    const story = requested().guarded(3);
    touch(story, ...EVERYBODY).waitMs(15_000);
    const keys = (post: Post) => askedOf(story.state, post, story.now).map((a) => a.key);
    expect(keys("supervisor").slice(0, 2)).toEqual(["clear:3", "present"]);
    story.send("supervisor", "clearToStart", { engine: 3 });
    expect(keys("cockpit").slice(0, 2)).toEqual([`signal:${story.openSignal("clearToStart")}`, "present"]);
  });

  it("[PRS-9] causes a hold in the silent post's name at 45 s, not a millisecond before", () => {
    const story = guardSilent(requested(), 44_999);
    expect(lapsed(story)).toEqual([]);
    story.waitMs(1);
    expect(lapsed(story)).toEqual(["fireGuard"]);
    expect(story.state.holds).toMatchObject([{ person: null, by: { post: "fireGuard", name: "Bo" } }]);
    expect(story.life(3)).toBe("waiting");
  });

  it("[PRS-9, CLR-7] causes a hold that opens a new epoch and ends a clearance", () => {
    const story = requested().guarded(3);
    for (let i = 0; i < 2; i += 1) touch(story, ...but("fireGuard")).wait(10);
    story.send("supervisor", "clearToStart", { engine: 3 });
    touch(story, ...but("fireGuard")).waitMs(24_999);
    expect(story.life(3)).toBe("clear");
    const epoch = story.state.epoch;
    story.waitMs(1);
    expect(story.told("clearanceVoid").map((f) => f.cause)).toEqual(["epoch"]);
    expect(story.state.epoch).toBe(epoch + 1);
  });

  it("[PRS-9, ALR-5] alerts the silent post of its hold too, because it did not raise it", () => {
    const story = guardSilent(requested(), 45_000);
    expect(story.state.alerts.find((a) => a.kind === "hold")?.posts.fireGuard).toBe("activeUnacknowledged");
  });

  it("[PRS-1] counts an answer, a signal and a refused command as a touch", () => {
    for (const act of [
      (s: Story) => s.say("fireGuard", { type: "present" }),
      (s: Story) => s.send("fireGuard", "guardInPlace", { engine: 3 }),
      (s: Story) => s.send("fireGuard", "clearToStart", { engine: 3 }),
      (s: Story) => s.say("fireGuard", { type: "claimPost", post: "fireGuard" }),
    ]) {
      const story = guardSilent(requested(), 40_000);
      act(story);
      touch(story, ...but("fireGuard")).waitMs(44_999);
      expect(lapsed(story)).not.toContain("fireGuard");
    }
  });

  it("[PRS-1, DLV-2] does not count a message that the device sends by itself, accepted or refused", () => {
    const story = guardSilent(requested(), 40_000);
    const request = story.openSignal("readyToStart");
    expect(story.say("fireGuard", { type: "delivered", signals: [request] }).refusal).toBeUndefined();
    expect(story.say("fireGuard", { type: "delivered", signals: [request] }).refusal?.reason).toBe(
      "alreadyDone",
    );
    story.waitMs(5_000);
    expect(lapsed(story)).toEqual(["fireGuard"]);
  });

  it("[PRS-1] does not count a touch on another device of that person", () => {
    const story = guardSilent(requested(), 40_000);
    story.does(onDevice(bo, "phone"), { type: "present" });
    story.waitMs(5_000);
    expect(lapsed(story)).toEqual(["fireGuard"]);
  });

  it("[PRS-8] does not count silence before the live start", () => {
    const story = starting().wait(3_600);
    story.requested(3);
    expect(lapsed(story)).toEqual([]);
    story.waitMs(44_999);
    expect(lapsed(story)).toEqual([]);
    story.waitMs(1);
    expect(lapsed(story).length).toBeGreaterThan(0);
  });

  it("[PRS-8] counts silence until the engine is stable, not after", () => {
    const story = starting();
    story.started(3);
    const before = lapsed(story).length;
    story.wait(3_600);
    expect(lapsed(story)).toHaveLength(before);
    expect(asks(story, "fireGuard")).toBe(0);
  });

  it("[PRS-8] is not asked of a post that is not needed", () => {
    const story = given({ type: WATCHED, powerSource: "batteries" }).upTo("starting").requested(3);
    touch(story, ...EVERYBODY);
    for (let i = 0; i < 10; i += 1) touch(story.wait(10), ...but("groundPower"));
    expect(lapsed(story)).toEqual([]);
  });

  it("[PRS-12] keeps the hold when the post is heard again, and the guard cannot release it", () => {
    const story = guardSilent(requested(), 45_000);
    const hold = story.state.holds[0]?.id ?? 0;
    touch(story, ...EVERYBODY).wait(120);
    expect(story.state.holds.map((h) => h.id)).toEqual([hold]);
    expect(story.send("fireGuard", "release", { ref: hold }).refusal?.reason).toBe("notYourHold");
    expect(story.send("groundPower", "release", { ref: hold }).refusal?.reason).toBe("notYourHold");
    expect(story.send("supervisor", "release", { ref: hold }).refusal).toBeUndefined();
    expect(story.state.holds).toEqual([]);
  });

  it("[PRS-12, ASK-2] offers the release to supervisor and cockpit only, and accepts it", () => {
    const story = guardSilent(requested(), 45_000);
    touch(story, ...EVERYBODY);
    const offered = (post: Post) =>
      askedOf(story.state, post, story.now).filter((a) => a.say === "silentHold" || a.say === "absentHold")
        .length;
    expect(EVERYBODY.map(offered)).toEqual([1, 0, 0, 1]);
    expect(story.send("cockpit", "release", { ref: story.state.holds[0]?.id ?? 0 }).refusal).toBeUndefined();
  });

  it("[PRS-10] asks a silent guard between starter and stable, tells cockpit and supervisor, and causes no hold", () => {
    const story = starting().caught(3);
    touch(story, ...EVERYBODY);
    for (let i = 0; i < 4; i += 1) touch(story.waitMs(i === 3 ? 14_999 : 10_000), ...but("fireGuard"));
    expect(silentAlert(story)).toBeUndefined();
    expect(asks(story, "fireGuard")).toBe(1);
    story.waitMs(1);
    expect(Object.keys(silentAlert(story)?.posts ?? {})).toEqual(["cockpit", "supervisor"]);
    const asked = askedOf(story.state, "supervisor", story.now).find((a) => a.say === "alert.postSilent");
    expect(asked?.detail).toEqual({ is: "posts", posts: ["fireGuard"] });
    touch(story.wait(40), ...but("fireGuard"));
    expect(story.raised("postSilent")).toHaveLength(1);
    expect(story.state.holds).toEqual([]);
    touch(story, "fireGuard");
    expect(silentAlert(story)?.active).toBe(false);
  });

  it("[PRS-10] causes a hold when the cockpit is silent then, because it has to report on the engine", () => {
    const story = starting().caught(3);
    touch(story, ...EVERYBODY);
    for (let i = 0; i < 5; i += 1) touch(story.wait(9), ...but("cockpit"));
    expect(lapsed(story)).toEqual(["cockpit"]);
    expect(story.raised("postSilent")).toEqual([]);
  });

  it("[PRS-8] asks a post heard since the request at 90 s and holds at 120 s, another post at 15 s and 45 s", () => {
    const story = given({ type: WATCHED_AGAIN }).upTo("starting").wait(60).requested(3);
    story.waitMs(14_999);
    expect(asks(story, "fireGuard")).toBe(0);
    story.waitMs(1);
    expect(asks(story, "fireGuard")).toBe(1);
    touch(story, ...EVERYBODY).waitMs(89_999);
    expect(EVERYBODY.map((post) => asks(story, post))).toEqual([0, 0, 0, 0]);
    story.waitMs(1);
    expect(EVERYBODY.map((post) => asks(story, post))).toEqual([1, 1, 1, 1]);
    touch(story, ...but("fireGuard")).waitMs(29_999);
    expect(lapsed(story)).toEqual([]);
    story.waitMs(1);
    expect(lapsed(story)).toEqual(["fireGuard"]);
  });

  it("[PRS-8] asks nobody within 15 s of their last act before the request", () => {
    const story = given({ type: WATCHED_AGAIN }).upTo("starting").wait(60);
    touch(story, "fireGuard").wait(10).requested(3);
    expect(asks(story.waitMs(14_999), "fireGuard")).toBe(0);
    expect(asks(story.waitMs(1), "fireGuard")).toBe(1);
  });

  it("[PRS-5] causes no second hold while a stop stands", () => {
    const story = starting().caught(3);
    story.send("supervisor", "hold");
    story.wait(3_600);
    expect(lapsed(story)).toEqual([]);
    expect(story.state.holds).toHaveLength(1);
  });

  it("[PRS-11] causes one hold for posts that fall silent one after another, and the hold names each", () => {
    const story = requested();
    touch(story, ...EVERYBODY).waitMs(10_000);
    touch(story, "groundPower", "supervisor").waitMs(10_000);
    touch(story, "supervisor").waitMs(25_000);
    expect(story.told("silenceHeld")).toEqual([
      { type: "silenceHeld", posts: ["cockpit", "fireGuard", "groundPower"] },
    ]);
    expect(story.state.holds).toMatchObject([{ silent: ["cockpit", "fireGuard", "groundPower"] }]);
    touch(story, "cockpit", "supervisor").wait(600);
    expect(story.state.holds).toHaveLength(1);
  });

  it("[PRS-11] names no post that was not yet called with a tone", () => {
    const story = requested();
    touch(story, ...EVERYBODY).waitMs(15_001);
    touch(story, "groundPower", "supervisor", "cockpit").waitMs(29_999);
    expect(lapsed(story)).toEqual(["fireGuard"]);
  });

  it("[PRS-12] lets three silent posts end their hold with one touch each and one release", () => {
    const story = requested();
    for (let i = 0; i < 5; i += 1) touch(story.wait(9), "supervisor");
    const hold = story.state.holds[0]?.id ?? 0;
    expect(lapsed(story)).toEqual(["cockpit", "fireGuard", "groundPower"]);
    const release = () => story.send("supervisor", "release", { ref: hold }).refusal;
    for (const post of ["cockpit", "fireGuard", "groundPower"] as const) {
      expect(release()).toMatchObject({ reason: "stillSilent" });
      const [first] = askedOf(story.state, post, story.now);
      expect(first?.choices[0]?.draft).toEqual({ type: "present" });
      story.say(post, { type: "present" });
    }
    expect(release()).toBeUndefined();
    expect(story.state.holds).toEqual([]);
    expect(story.state.alerts).toEqual([]);
  });

  it("[PRS-12] lets the hold be released when the silent post was vacated", () => {
    const story = guardSilent(requested(), 45_000);
    const hold = story.state.holds[0]?.id ?? 0;
    expect(story.send("supervisor", "release", { ref: hold }).refusal?.reason).toBe("stillSilent");
    story.say("supervisor", { type: "vacatePost", post: "fireGuard", reason: "not at the aircraft" });
    expect(story.send("supervisor", "release", { ref: hold }).refusal).toBeUndefined();
  });

  it("[PRS-5] asks nobody while a stop stands", () => {
    const story = requested();
    story.send("supervisor", "hold");
    story.unseen(30_000);
    expect(EVERYBODY.map((post) => asks(story, post))).toEqual([0, 0, 0, 0]);
  });

  it("[PRS-13] asks a silent post at 90 s in the warm-up and tells the others at 120 s, without a hold", () => {
    const story = given({ type: WATCHED_AGAIN }).upTo("warmUp");
    touch(story, ...EVERYBODY).wait(80);
    touch(story, ...but("fireGuard")).waitMs(9_999);
    expect(asks(story, "fireGuard")).toBe(0);
    story.waitMs(1);
    expect(asks(story, "fireGuard")).toBe(1);
    story.waitMs(29_999);
    expect(story.raised("postSilent")).toEqual([]);
    story.waitMs(1);
    expect(story.raised("postSilent")).toHaveLength(1);
    touch(story, ...EVERYBODY);
    expect(silentAlert(story)?.active).toBe(false);
    expect(lapsed(story)).toEqual([]);
  });

  it("[PRS-9, TIM-1] refuses a command after a silence that had run out, also when the server noticed late", () => {
    const story = requested().guarded(3);
    const clear = story.send("supervisor", "clearToStart", { engine: 3 }).events[0]?.seq ?? 0;
    story.answer("cockpit", clear, "readBack", 3);
    story.unseen(60_000);
    story.does(ada, { type: "send", kind: "cranking", engine: 3, ref: clear });
    expect(story.turnsUncleared(3)).toBe(true);
    expect(lapsed(story).length).toBeGreaterThan(0);
  });

  it("[PRS-9, HND-5] ends an open request for hands on a propeller", () => {
    const story = starting();
    story.send("groundPower", "handlePropeller", { engine: 1 });
    story.requested(3);
    const question = story.openSignal("handlePropeller");
    guardSilent(story, 45_000);
    expect(story.answer("cockpit", question, "authorise").refusal?.reason).toBe("signalClosed");
    expect(nextDeadline(story.state)).not.toBeNull();
  });
});

describe("delivery", () => {
  it("[DLV-1] is recorded once for each open signal addressed to the post", () => {
    const story = starting();
    const hold = story.send("supervisor", "hold").events[0]?.seq ?? 0;
    const more = story.send("supervisor", "hold").events[0]?.seq ?? 0;
    const say = (post: Post, ...signals: number[]) => story.say(post, { type: "delivered", signals });
    expect(say("cockpit", hold).events[0]?.fact).toEqual({
      type: "delivered",
      signals: [hold],
      post: "cockpit",
    });
    expect(say("cockpit", hold, more, 9_999).events[0]?.fact).toMatchObject({ signals: [more] });
    const before = story.state.seq;
    expect(say("cockpit", hold, more).refusal?.reason).toBe("alreadyDone");
    expect(say("cockpit", 9_999).events).toEqual([]);
    expect(story.state.seq).toBe(before);
    expect(say("supervisor", hold).refusal?.reason).toBe("alreadyDone");
    expect(story.state.signals.find((s) => s.id === hold)?.delivered).toEqual({ cockpit: story.now });
  });

  it("[DLV-2] is no answer and no acknowledgement, and ends no wait", () => {
    const story = starting();
    const hold = story.send("supervisor", "hold").events[0]?.seq ?? 0;
    story.say("cockpit", { type: "delivered", signals: [hold] });
    const signal = story.state.signals.find((s) => s.id === hold);
    expect(signal).toMatchObject({ is: "open", answers: {} });
    expect(story.state.alerts[0]?.posts.cockpit).toBe("activeUnacknowledged");
    story.waitMs(2_500);
    expect(story.told("late").map((f) => f.signal)).toEqual([hold]);
  });
});
