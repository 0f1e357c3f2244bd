import { describe, expect, it } from "vitest";
import { apartFromStarts, currencySchema } from "../../shared/house/currency.ts";
import { lapsesOf } from "../../shared/house/lapses.ts";
import { startsIn } from "../../shared/house/starts.ts";
import { FIRE, RECENT } from "./equipped.ts";
import { fay, given } from "./given.ts";

const DAY = 24 * 3_600_000;
const END = Date.UTC(2027, 0, 1);
const GUARD = { mayHold: ["fireGuard"] as const, dates: { fire: "2026-12-31" }, starts: {}, rehearsals: {} };

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

describe("a rehearsal", () => {
  it("[RHS-42] counts at its post alone, for the days that the house says, and never beside a start", () => {
    const until = (kind: object, over: object) =>
      lapsesOf([{ ...FIRE, ...kind }], { ...GUARD, dates: {}, ...over }, END)[0]?.until;
    const rehearsed = { rehearsals: { fireGuard: END - 30 * DAY } };
    expect(until({}, rehearsed)).toBeNull();
    expect(until({ rehearsalDays: 30 }, rehearsed)).toBe(END);
    expect(until({ rehearsalDays: 30 }, { rehearsals: { cockpit: END } })).toBeNull();
    expect(until({ rehearsalDays: 20 }, { ...rehearsed, dates: { fire: "2026-12-31" } })).toBe(END);
    expect(until({ rehearsalDays: 30, recencyDays: 30 }, rehearsed)).toBeNull();
    expect(until({ rehearsalDays: 30 }, { starts: { fireGuard: END } })).toBeNull();
  });

  it("[RHS-42] cannot be counted by a currency that counts starts, or for no day", () => {
    expect(apartFromStarts({ ...FIRE, rehearsalDays: 30 })).toBe(true);
    expect(apartFromStarts(RECENT)).toBe(true);
    expect(apartFromStarts({ ...RECENT, rehearsalDays: 30 })).toBe(false);
    for (const rehearsalDays of [0, 3651, 1.5, null])
      expect(currencySchema.safeParse({ ...FIRE, rehearsalDays }).success).toBe(false);
  });
});
