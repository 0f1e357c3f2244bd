import { describe, expect, it } from "vitest";
import { lightningClear, windWithinLimits } from "../../shared/conditions/surroundings.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { RICH } from "../figures/rich.ts";
import { given, type Say } from "./given.ts";

const read = (action: Partial<Extract<Say, { type: "recordWeather" }>>) => {
  const story = given({ type: RICH }).manned();
  story.say("supervisor", { type: "recordWeather", ...action });
  return story;
};

describe("weather from a report", () => {
  // A report in the form that the WMO and FMH-1 print.
  const metar = "METAR KTTN 010853Z 04011G18KT 1/2SM VCTS SN FZFG BKN003 OVC010 M02/M03 A3006";

  it("[WEA-1] is kept as pasted, with the figures read from it", () => {
    expect(read({ metar }).told("weatherRead")).toMatchObject([{ metar, windKt: 11 }]);
    expect(read({ metar }).state.weather).toMatchObject({
      metar,
      windKt: 11,
      gustKt: 18,
      fromDeg: 40,
      temperatureC: -2,
      dewPointC: -3,
      // 30.06 inHg.
      qnhHpa: 1017.9,
    });
  });

  it("[WEA-1] gives way to what a person enters beside it", () => {
    expect(read({ metar, windKt: 14 }).state.weather).toMatchObject({ windKt: 14, gustKt: 18 });
  });

  it("[WEA-1] is refused if it is no report, or has no wind", () => {
    const story = read({ metar: "nice day" });
    expect(story.last.refusal).toEqual({ reason: "badReport", found: "unreadable" });
    expect(read({ temperatureC: 5 }).refused).toBe("missingFigure");
    expect(read({ metar: "METAR EGLL 010850Z CAVOK 21/10 Q1021" }).refused).toBe("missingFigure");
  });
});

describe("wind on the aircraft", () => {
  const finding = (fromDeg: number | undefined, windKt: number, headingDeg?: number) => {
    const story = given({ type: RICH, more: headingDeg === undefined ? {} : { headingDeg } }).manned();
    story.say("supervisor", { type: "recordWeather", windKt, ...(fromDeg === undefined ? {} : { fromDeg }) });
    return windWithinLimits.find(story.state, 1, story.now);
  };

  it("[MCN-4] is judged from behind and across by a limit each, where heading and direction are known", () => {
    expect(finding(180, 10, 0).is).toBe("yes");
    expect(finding(180, 11, 0)).toMatchObject({ is: "no", found: "11 kt from behind" });
    expect(finding(90, 20, 0).is).toBe("yes");
    expect(finding(270, 21, 0)).toMatchObject({ is: "no", found: "21 kt across" });
    expect(finding(0, 29, 0).is).toBe("yes");
  });

  it("[MCN-4] is judged by the wind's own limit alone if either is unknown", () => {
    expect(finding(180, 11).is).toBe("yes");
    expect(finding(undefined, 11, 0).is).toBe("yes");
  });
});

describe("lightning", () => {
  const type: AircraftType = { ...RICH, conditions: [...RICH.conditions, "lightningClear"] };
  const story = () => given({ type }).manned().upTo("starting");

  it("[MCN-9] thunder 30 s after the flash is 6 miles, and stops; 31 s does not (US weather service practice)", () => {
    const near = story();
    near.say("groundPower", { type: "recordFlash", thunderAfterS: 30 });
    expect(lightningClear.find(near.state, 1, near.now)).toMatchObject({ is: "no", found: "6 mi" });
    const far = story();
    far.say("groundPower", { type: "recordFlash", thunderAfterS: 31 });
    expect(lightningClear.find(far.state, 1, far.now).is).toBe("yes");
  });

  it("[MCN-9] a flash of unknown distance stops; the wait runs from the last one", () => {
    const seen = story();
    seen.say("fireGuard", { type: "recordFlash" });
    const first = seen.now;
    seen.wait(600).say("fireGuard", { type: "recordFlash", thunderAfterS: 10 });
    expect(lightningClear.find(seen.state, 1, first + 1_800_000).is).toBe("no");
    expect(lightningClear.find(seen.state, 1, seen.now + 1_799_999)).toMatchObject({
      is: "no",
      until: seen.now + 1_800_000,
    });
    expect(lightningClear.find(seen.state, 1, seen.now + 1_800_000).is).toBe("yes");
  });

  it("[MCN-9, CLR-6] a flash ends a clearance that stands", () => {
    const cleared = story();
    cleared.readBack(3);
    cleared.say("groundPower", { type: "recordFlash" });
    expect(cleared.told("clearanceVoid").at(-1)).toMatchObject({ engine: 3, cause: "condition" });
  });

  it("[MCN-9] stops nothing with a type without the rule", () => {
    const { ramp: _ramp, ...rest } = type;
    const free = given({ type: rest }).manned();
    free.say("groundPower", { type: "recordFlash" });
    expect(lightningClear.find(free.state, 1, free.now).is).toBe("yes");
  });
});
