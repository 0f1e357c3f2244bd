import { describe, expect, it } from "vitest";
import { askedOf } from "../../shared/asks/asked.ts";
import type { Post } from "../../shared/protocol/posts.ts";
import { nextDeadline } from "../../shared/session/deadline.ts";
import { ada, bo, given, onDevice, type Story } from "../spec/given.ts";
import { WATCHED } from "./types.ts";

const starting = () => given({ type: WATCHED }).upTo("starting");
/** Engine 3 is asked for, and everybody but `silent` has just been heard. */
const requested = () => starting().requested(3);
const touch = (story: Story, ...posts: Post[]) => {
  for (const post of posts) story.say(post, { type: "present" });
  return story;
};
const EVERYBODY: Post[] = ["cockpit", "fireGuard", "groundPower", "supervisor"];
const but = (post: Post) => EVERYBODY.filter((p) => p !== post);
const lapsed = (story: Story) => story.told("presenceLapsed").map((f) => f.post);
const asks = (story: Story, post: Post) =>
  askedOf(story.state, post, story.now).filter((a) => a.key === "present").length;

/** The guard alone falls silent: the others touch every ten seconds. */
function guardSilent(story: Story, ms: number): Story {
  touch(story, ...EVERYBODY);
  for (let left = ms; left > 0; left -= 10_000) {
    story.waitMs(Math.min(left, 10_000));
    if (left > 10_000) touch(story, ...but("fireGuard"));
  }
  return story;
}

describe("presence in a live start", () => {
  it("[PRS-3] asked at 15 s of silence, not a millisecond before", () => {
    const story = touch(requested(), ...EVERYBODY).waitMs(14_999);
    expect(asks(story, "fireGuard")).toBe(0);
    story.waitMs(1);
    expect(asks(story, "fireGuard")).toBe(1);
  });

  it("[PAN-17] asked behind a read-back that is due sooner, and before what has longer", () => {
    const story = requested().guarded(3);
    touch(story, ...EVERYBODY).waitMs(15_000);
    const keys = (post: Post) => askedOf(story.state, post, story.now).map((a) => a.key);
    // The answer to the request may take a minute; the hold for silence comes in half of one.
    expect(keys("supervisor").slice(0, 2)).toEqual(["present", "clear:3"]);
    story.send("supervisor", "clearToStart", { engine: 3 });
    expect(keys("cockpit").slice(0, 2)).toEqual([`signal:${story.openSignal("clearToStart")}`, "present"]);
  });

  it("[PRS-3] held at 45 s of silence in that post's name, not a millisecond before", () => {
    const story = guardSilent(requested(), 44_999);
    expect(lapsed(story)).toEqual([]);
    story.waitMs(1);
    expect(lapsed(story)).toEqual(["fireGuard"]);
    expect(story.state.holds).toMatchObject([{ person: null, by: { post: "fireGuard", name: "Bo" } }]);
    expect(story.life(3)).toBe("waiting");
  });

  it("[PRS-3, CLR-7] the hold opens a new epoch and ends a clearance", () => {
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

  it("[PRS-3, ALR-5] the silent post is alerted too: it raised nothing", () => {
    const story = guardSilent(requested(), 45_000);
    expect(story.state.alerts.find((a) => a.kind === "hold")?.posts.fireGuard).toBe("activeUnacknowledged");
  });

  it("[PRS-1] an answer, a signal, a refused command: each is a touch", () => {
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

  it("[PRS-1, DLV-2] what the device says by itself is none, taken or refused", () => {
    const story = guardSilent(requested(), 40_000);
    const request = story.openSignal("readyToStart");
    expect(story.say("fireGuard", { type: "delivered", signals: [request] }).refusal).toBeUndefined();
    expect(story.say("fireGuard", { type: "delivered", signals: [request] }).refusal?.reason).toBe(
      "alreadyDone",
    );
    story.waitMs(5_000);
    expect(lapsed(story)).toEqual(["fireGuard"]);
  });

  it("[PRS-1] nor is a touch on another device of that person's", () => {
    const story = guardSilent(requested(), 40_000);
    story.does(onDevice(bo, "phone"), { type: "present" });
    story.waitMs(5_000);
    expect(lapsed(story)).toEqual(["fireGuard"]);
  });

  it("[PRS-2] silence before the start came alive does not count", () => {
    const story = starting().wait(3_600);
    story.requested(3);
    expect(lapsed(story)).toEqual([]);
    story.waitMs(44_999);
    expect(lapsed(story)).toEqual([]);
    story.waitMs(1);
    expect(lapsed(story).length).toBeGreaterThan(0);
  });

  it("[PRS-2] it counts until the engine is stable, not after", () => {
    const story = starting();
    story.started(3);
    const before = lapsed(story).length;
    story.wait(3_600);
    expect(lapsed(story)).toHaveLength(before);
    expect(asks(story, "fireGuard")).toBe(0);
  });

  it("[PRS-2] a post that is not needed is not missed", () => {
    const story = given({ type: WATCHED, powerSource: "batteries" }).upTo("starting").requested(3);
    touch(story, ...EVERYBODY);
    for (let i = 0; i < 10; i += 1) touch(story.wait(10), ...but("groundPower"));
    expect(lapsed(story)).toEqual([]);
  });

  it("[PRS-4] it stays when the post is heard again, and the guard cannot let it go", () => {
    const story = guardSilent(requested(), 45_000);
    const hold = story.state.holds[0]?.id ?? 0;
    touch(story, ...EVERYBODY).wait(120);
    expect(story.state.holds.map((h) => h.id)).toEqual([hold]);
    expect(story.send("fireGuard", "release", { ref: hold }).refusal?.reason).toBe("notYourHold");
    expect(story.send("groundPower", "release", { ref: hold }).refusal?.reason).toBe("notYourHold");
    expect(story.send("supervisor", "release", { ref: hold }).refusal).toBeUndefined();
    expect(story.state.holds).toEqual([]);
  });

  it("[PRS-4, ASK-2] its release is offered to supervisor and cockpit only, and is accepted", () => {
    const story = guardSilent(requested(), 45_000);
    touch(story, ...EVERYBODY);
    const offered = (post: Post) =>
      askedOf(story.state, post, story.now).filter((a) => a.say === "silentHold" || a.say === "absentHold")
        .length;
    expect(EVERYBODY.map(offered)).toEqual([1, 0, 0, 1]);
    expect(story.send("cockpit", "release", { ref: story.state.holds[0]?.id ?? 0 }).refusal).toBeUndefined();
  });

  it("[PRS-4] let go while an engine runs up and the post is silent still, it comes again, once", () => {
    const story = starting().caught(3);
    touch(story, ...EVERYBODY);
    for (let i = 0; i < 5; i += 1) touch(story.wait(10), ...but("fireGuard"));
    const [hold] = story.state.holds;
    story.send("supervisor", "release", { ref: hold?.id ?? 0 });
    expect(lapsed(story)).toEqual(["fireGuard", "fireGuard"]);
    expect(story.state.holds).toHaveLength(1);
    story.say("fireGuard", { type: "present" });
    touch(story, ...EVERYBODY);
    story.send("supervisor", "release", { ref: story.state.holds[0]?.id ?? 0 });
    expect(story.state.holds).toEqual([]);
  });

  it("[PRS-5] no second hold while a stop stands", () => {
    const story = starting().caught(3);
    story.send("supervisor", "hold");
    story.wait(3_600);
    expect(lapsed(story)).toEqual([]);
    expect(story.state.holds).toHaveLength(1);
  });

  it("[PRS-5] two posts silent at the same moment are two holds, and then no more", () => {
    const story = requested();
    touch(story, ...EVERYBODY).waitMs(10_000);
    touch(story, "cockpit", "supervisor").waitMs(30_000);
    touch(story, "cockpit", "supervisor").wait(600);
    expect(lapsed(story)).toEqual(["fireGuard", "groundPower"]);
  });

  it("[PRS-3, TIM-1] a server that looks late lets nobody act on a silence that had run out", () => {
    const story = requested().guarded(3);
    const clear = story.send("supervisor", "clearToStart", { engine: 3 }).events[0]?.seq ?? 0;
    story.answer("cockpit", clear, "readBack", 3);
    story.unseen(60_000);
    expect(story.does(ada, { type: "send", kind: "cranking", engine: 3, ref: clear }).refusal).toBeDefined();
    expect(story.life(3)).not.toBe("cranking");
    expect(lapsed(story).length).toBeGreaterThan(0);
  });

  it("[PRS-3, HND-5] it takes an open question for a propeller back", () => {
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
  it("[DLV-1] each open signal addressed to the post, once", () => {
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

  it("[DLV-2] no answer, no acknowledgement, no end of waiting", () => {
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
