import { describe, expect, it } from "vitest";
import { lapsesOf } from "../../shared/house/lapses.ts";
import { startsIn } from "../../shared/house/starts.ts";
import { FIRE, RECENT } from "./equipped.ts";
import { fay, given } from "./given.ts";

const DAY = 24 * 3_600_000;
const END = Date.UTC(2027, 0, 1);
const GUARD = { mayHold: ["fireGuard"] as const, dates: { fire: "2026-12-31" }, starts: {} };

describe("a currency by its end date", () => {
  const at = (now: number, over: object = {}) => lapsesOf([FIRE], { ...GUARD, ...over }, now);
  const lapse = { post: "fireGuard", kind: "fire", name: "Fire training", until: END };

  it("[CUR-2] [CUR-4] holds to the end of its day, is shown 30 days before, and bars when it is over", () => {
    expect(at(END - 30 * DAY - 1)).toEqual([]);
    expect(at(END - 30 * DAY)).toEqual([{ ...lapse, is: "ending", bars: false }]);
    expect(at(END - 1)).toMatchObject([{ is: "ending", bars: false }]);
    expect(at(END)).toEqual([{ ...lapse, is: "over", bars: true }]);
  });

  it("[CUR-2] counts as over while nobody has entered it", () => {
    expect(at(0, { dates: {} })).toEqual([{ ...lapse, until: null, is: "over", bars: true }]);
  });

  it("[CUR-1] is asked only at the posts that need it and that the person may hold, and warns where the house says so", () => {
    const all = { mayHold: ["cockpit", "fireGuard", "supervisor"] };
    expect(at(END, all).map((l) => [l.post, l.bars])).toEqual([
      ["cockpit", false],
      ["fireGuard", true],
    ]);
    expect(at(END, { mayHold: ["groundPower"] })).toEqual([]);
    expect(lapsesOf([{ ...FIRE, retired: true }], GUARD, END)).toEqual([]);
  });
});

describe("recency", () => {
  it("[CUR-3] runs from the last start at that post, and a date entered counts where it is later", () => {
    const until = (over: object, now = END) =>
      lapsesOf([RECENT], { ...GUARD, dates: {}, ...over }, now)[0]?.until;
    expect(until({ starts: { fireGuard: END - 90 * DAY } })).toBe(END);
    // A start at another post says nothing of this one.
    expect(until({ starts: { cockpit: END } })).toBeNull();
    const both = { starts: { fireGuard: END - 200 * DAY }, dates: { recency: "2026-12-31" } };
    expect(until(both)).toBe(END);
    expect(lapsesOf([RECENT], { ...GUARD, starts: { fireGuard: END - 10 * DAY } }, END)).toEqual([]);
  });

  it("[CUR-3] a start is the moment an engine catches, for whoever holds each post then", () => {
    const story = given().upTo("starting");
    story.cranking(3);
    story.send("cockpit", "caught", { engine: 3 });
    const caught = story.now;
    story.say("supervisor", { type: "leavePost", post: "supervisor" });
    story.wait(5);
    story.does(fay, { type: "claimPost", post: "supervisor" });
    const of = (personId: string, post: string) => ({ personId, post, at: caught });
    expect(startsIn(story.log)).toEqual([
      of("ada", "cockpit"),
      of("bo", "fireGuard"),
      of("cy", "groundPower"),
      of("di", "supervisor"),
    ]);
    expect(startsIn(given().manned().log)).toEqual([]);
  });
});
