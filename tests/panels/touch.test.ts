import { describe, expect, it } from "vitest";
import { TOUCH_EVERY_MS, touchDue } from "../../web/posts/shared/touchDue.ts";
import { WATCHED_AGAIN } from "../safety/types.ts";
import { given } from "../spec/given.ts";

const requested = () => given({ type: WATCHED_AGAIN }).upTo("starting").wait(60).requested(3);

describe("a touch anywhere on the panel", () => {
  it("[PRS-7] is reported once the record's last touch is five seconds old, and not sooner", () => {
    const story = requested();
    story.say("fireGuard", { type: "present" });
    story.unseen(TOUCH_EVERY_MS - 1);
    expect(touchDue(story.state, "fireGuard", story.now, null)).toBe(false);
    story.unseen(1);
    expect(touchDue(story.state, "fireGuard", story.now, null)).toBe(true);
  });

  it("[PRS-7] is reported at most once in five seconds, also while the record does not show it yet", () => {
    const story = requested().wait(10);
    const reported = story.now;
    expect(touchDue(story.state, "fireGuard", reported + TOUCH_EVERY_MS - 1, reported)).toBe(false);
    expect(touchDue(story.state, "fireGuard", reported + TOUCH_EVERY_MS, reported)).toBe(true);
  });

  it("[PRS-7] is not reported while presence does not count", () => {
    const story = given({ type: WATCHED_AGAIN }).upTo("starting").wait(60);
    expect(touchDue(story.state, "fireGuard", story.now, null)).toBe(false);
  });

  it("[PRS-7, PRS-12] is not reported while a stop stands, so that it never acknowledges a hold", () => {
    const story = requested().wait(45);
    expect(story.state.holds).toHaveLength(1);
    story.unseen(60_000);
    expect(touchDue(story.state, "fireGuard", story.now, null)).toBe(false);
  });
});
