import { describe, expect, it } from "vitest";
import { lightningClear, windWithinLimits } from "../../shared/conditions/surroundings.ts";
import { lightningFigure } from "../../shared/figures/lightning.ts";
import { airInput } from "../../shared/figures/temperature.ts";
import type { Post } from "../../shared/protocol/posts.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { airTemperature } from "../../shared/weather/air.ts";
import { flashAwaitingThunder } from "../../shared/weather/lightning.ts";
import { FOUR } from "./aircraft.ts";
import { CREW, given, type Say, START, type Story } from "./given.ts";

const source = { basis: "invented", text: "for tests" } as const;
const limit = <U extends string>(value: number, unit: U) => ({ value, unit, source });
const manned = (type: AircraftType = FOUR) => given({ type }).manned();
const weather = (story: Story, figures: Omit<Extract<Say, { type: "recordWeather" }>, "type">) =>
  story.say("supervisor", { type: "recordWeather", ...figures });

describe("weather at the field", () => {
  it("[MOD-65] a pasted METAR fills in what it says", () => {
    const story = manned();
    const metar = "KJFK 010850Z 28017G27KT 10SM FEW250 M08/M21 A3034";
    expect(weather(story, { metar }).refusal).toBeUndefined();
    // 30.34 inHg is 1027.4 hPa.
    expect(story.state.weather).toMatchObject({
      ...{ windKt: 17, gustKt: 27, fromDeg: 280, temperatureC: -8, dewPointC: -21, qnhHpa: 1027.4 },
      metar,
    });
    expect(airTemperature(story.state)).toEqual({ value: -8, unit: "degC" });
  });

  it("[MOD-65] a pasted METAR gives no figure that it lacks, and speeds in metres a second become knots", () => {
    const story = manned();
    weather(story, { metar: "UUEE 010850Z VRB05G10MPS 9999 NSC 15/10" });
    // 5 and 10 m/s are 9.7 and 19.4 kt.
    expect(story.state.weather).toMatchObject({ windKt: 9.7, gustKt: 19.4, fromDeg: null, qnhHpa: null });
  });

  it("[MOD-65] a figure that a person entered replaces the report's", () => {
    const story = manned();
    weather(story, { metar: "EGLL 010850Z 28017KT CAVOK 21/10 Q1021", windKt: 4 });
    expect(story.state.weather).toMatchObject({ windKt: 4, gustKt: null, temperatureC: 21, qnhHpa: 1021 });
  });

  it("[MOD-65] figures without a report are kept, and none is invented", () => {
    const story = manned();
    weather(story, { windKt: 6 });
    const { by: _by, ...kept } = story.state.weather ?? { by: null };
    expect(kept).toEqual({ windKt: 6, gustKt: null, fromDeg: null, temperatureC: null, qnhHpa: null });
    expect(airTemperature(story.state)).toBeNull();
  });

  it.each([
    [{ metar: "hello" }, "badReport", "unreadable"],
    [{ metar: "EGLL 310850Z 28017KT CAVOK 21/10 Q1021 gale" }, "badReport", "old:87000000:3600000"],
    [{ metar: "EGLL 010850Z /////KT CAVOK 21/10 Q1021" }, "missingFigure", "wind, kt"],
    [{ temperatureC: 10 }, "missingFigure", "wind, kt"],
    [{ metar: "EGLL 010850Z 280160KT CAVOK 21/10 Q1021" }, "badReport", "impossible:wind:160"],
    [{ metar: "EGLL 010850Z 28017KT CAVOK 61/10 Q1021" }, "badReport", "impossible:temperature:61"],
    [{ metar: "EGLL 010850Z 28017KT CAVOK 21/22 Q1021" }, "badReport", "impossible:dewPoint:22"],
    [{ metar: "EGLL 010850Z 28017G16KT CAVOK 21/10 Q1021" }, "badReport", "impossible:gust:16"],
    [{ metar: "EGLL 010850Z 28017KT CAVOK 21/10 Q0700" }, "badReport", "impossible:qnh:700"],
  ] as const)("[MOD-65, WEA-1, WEA-2, WEA-3, REF-1] %o is refused as weather", (figures, reason, found) => {
    const { refusal } = weather(manned(), figures);
    expect(refusal).toEqual({ reason, found });
  });

  it("[WEA-2] a report grows old from when it was observed, not from when it was pasted", () => {
    const story = manned();
    // Observed at 08:50; it is 09:00 and some seconds.
    weather(story, { metar: "EGLL 010850Z 28017KT CAVOK 21/10 Q1021" });
    const observed = START - 10 * 60_000;
    expect(story.state.weather?.observedAt).toBe(observed);
    const at = (now: number) => windWithinLimits.find(story.state, 0, now);
    expect(at(story.now)).toMatchObject({ is: "yes", at: observed, until: observed + 3_600_000 });
    expect([at(observed + 3_599_999).is, at(observed + 3_600_000).is]).toEqual(["yes", "stale"]);
    expect(airInput(story.state).at).toBe(observed);
  });

  it("[WEA-2] a report is refused at the type's age, whatever is entered beside it, and taken a moment before", () => {
    const old = manned();
    old.waitMs(START + 50 * 60_000 - old.now);
    const metar = "EGLL 010850Z 28017KT CAVOK 21/10 Q1021";
    expect(weather(old, { metar, windKt: 4 }).refusal).toEqual({
      reason: "badReport",
      found: "old:3600000:3600000",
    });
    expect(old.state.weather).toBeNull();
    const fresh = manned();
    fresh.waitMs(START + 50 * 60_000 - 1 - fresh.now);
    expect(weather(fresh, { metar }).refusal).toBeUndefined();
  });

  it.each([
    [{ windKt: 30 }, "yes"],
    [{ windKt: 31 }, "no"],
    [{ windKt: 10, gustKt: 40 }, "yes"],
    [{ windKt: 10, gustKt: 41 }, "no"],
  ] as const)("[MCN-4] %o: %s", (figures, is) => {
    const story = manned();
    weather(story, figures);
    expect(windWithinLimits.find(story.state, 0, story.now).is).toBe(is);
  });

  it.each([
    // Nose to the east: wind from the east is ahead, from the west behind, from the north across.
    [90, 20, "yes", undefined],
    [270, 10, "yes", undefined],
    [270, 11, "no", "11 kt from behind"],
    [0, 15, "yes", undefined],
    [0, 16, "no", "16 kt across"],
  ] as const)("[MCN-4, MOD-62] wind from %i at %i kt on a nose at 90: %s", (fromDeg, windKt, is, found) => {
    const wind = { ...FOUR.wind, tailMax: limit(10, "kt"), crossMax: limit(15, "kt") };
    const story = manned({ ...FOUR, wind });
    weather(story, { windKt, fromDeg });
    const of = (state: typeof story.state) => windWithinLimits.find(state, 0, story.now);
    expect(of({ ...story.state, headingDeg: 90 })).toMatchObject(found ? { is, found } : { is });
    // Without a heading the wind's components are not known: it may be the worst one.
    expect(of(story.state).is).toBe(windKt > 10 ? "unknown" : "yes");
  });

  it("[MCN-4] weather grows old at the type's time", () => {
    const story = manned();
    weather(story, { windKt: 5 });
    const read = story.now;
    const at = (ms: number) => windWithinLimits.find(story.state, 0, read + ms);
    expect(at(0).until).toBe(read + 3_600_000);
    expect([at(3_599_999).is, at(3_600_000).is]).toEqual(["yes", "stale"]);
  });
});

describe("lightning", () => {
  const ruled: AircraftType = {
    ...FOUR,
    ramp: {
      ...FOUR.ramp,
      lightning: { stopWithin: limit(5, "mi"), resumeAfter: limit(1800, "s") },
    } as NonNullable<AircraftType["ramp"]>,
  };
  const flash = (story: Story, thunderAfterS?: number) =>
    story.say("groundPower", {
      type: "recordFlash",
      ...(thunderAfterS === undefined ? {} : { thunderAfterS }),
    });
  const seqOf = (story: Story) => story.last.events.find((e) => e.fact.type === "flashSeen")?.seq ?? 0;
  const found = (story: Story) => lightningClear.find(story.state, 0, story.now);

  it("[MOD-64] twenty-five seconds to the thunder are five miles, and work stops until the wait is over", () => {
    const story = manned(ruled);
    expect(found(story).is).toBe("yes");
    flash(story, 25);
    expect(story.state.flashes).toMatchObject([{ at: story.now, miles: 5 }]);
    expect(found(story)).toMatchObject({ is: "no", found: "5 mi", until: story.now + 1_800_000 });
    story.waitMs(1_799_999);
    expect(found(story).is).toBe("no");
    story.waitMs(1);
    expect(found(story).is).toBe("yes");
  });

  it("[MOD-64] a flash farther away stops nothing; one at an unknown distance stops work", () => {
    const story = manned(ruled);
    flash(story, 26);
    expect(found(story).is).toBe("yes");
    flash(story);
    expect(found(story)).toMatchObject({ is: "no", found: "distance unknown" });
  });

  it("[WEA-5] a flash counts as near at once; the person who saw it then gives its distance by the thunder", () => {
    const story = manned(ruled);
    flash(story);
    const first = seqOf(story);
    const at = story.now;
    expect(found(story)).toMatchObject({ is: "no", found: "distance unknown" });
    expect(flashAwaitingThunder(story.state, CREW.groundPower.id, story.now)).toMatchObject({ seq: first });
    expect(flashAwaitingThunder(story.state, CREW.fireGuard.id, story.now)).toBeNull();
    story.wait(35);
    story.say("groundPower", { type: "recordFlash", of: first, thunderAfterS: 35 });
    expect(story.state.flashes).toMatchObject([{ at, miles: 7 }]);
    expect(found(story).is).toBe("yes");
    expect(flashAwaitingThunder(story.state, CREW.groundPower.id, story.now)).toBeNull();
    expect(lightningFigure(story.state, story.now)).toMatchObject({
      words: "lightning.none",
      verdict: "good",
    });
  });

  it("[WEA-5] the distance is taken once, from the same person only; the nearer of two flashes counts", () => {
    const story = manned(ruled);
    flash(story);
    const of = seqOf(story);
    const say = (post: Post, more: object) =>
      story.say(post, { type: "recordFlash", of, ...more }).refusal?.reason;
    expect(say("fireGuard", { miles: 20 })).toBe("nothingOpen");
    expect(say("groundPower", {})).toBe("missingFigure");
    expect(found(story)).toMatchObject({ is: "no", found: "distance unknown" });
    expect(say("groundPower", { miles: 20, thunderAfterS: 10 })).toBeUndefined();
    expect(say("groundPower", { miles: 30 })).toBe("alreadyDone");
    expect(found(story)).toMatchObject({ is: "no", found: "2 mi" });
    expect(lightningFigure(story.state, story.now)).toMatchObject({ value: 2, unit: "mi", verdict: "bad" });
  });

  it("[WEA-5] a distance without thunder is enough, and the thunder is awaited for two minutes at most", () => {
    const story = manned(ruled);
    story.say("fireGuard", { type: "recordFlash", miles: 5.1 });
    expect(found(story).is).toBe("yes");
    story.say("fireGuard", { type: "recordFlash" });
    const waits = () => flashAwaitingThunder(story.state, CREW.fireGuard.id, story.now) !== null;
    story.waitMs(119_999);
    expect(waits()).toBe(true);
    story.waitMs(1);
    expect(waits()).toBe(false);
    // A flash whose distance is unknown still counts as near.
    expect(found(story).is).toBe("no");
  });

  it("[MOD-64] a type without a rule has no limit; the last fifty flashes are kept", () => {
    const story = manned();
    for (let n = 0; n < 52; n += 1) flash(story.waitMs(1_000), n);
    expect(found(story).is).toBe("yes");
    expect(story.state.flashes).toHaveLength(50);
    expect(story.state.flashes?.at(-1)?.at).toBe(story.now);
  });
});
