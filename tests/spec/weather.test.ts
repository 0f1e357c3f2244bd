import { describe, expect, it } from "vitest";
import { askedOf } from "../../shared/asks/asked.ts";
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

  // Limits of this type: 10 kt from behind, 20 kt across.
  it("[MCN-4, MOD-62] an unknown direction counts as the worst one", () => {
    expect(finding(undefined, 10, 0).is).toBe("yes");
    expect(finding(undefined, 11, 0)).toMatchObject({
      is: "no",
      found: "11 kt from behind, direction unknown",
    });
    expect(finding(undefined, 0, 0).is).toBe("yes");
  });

  it("[MCN-4] without a heading a wind that may be beyond a limit is unknown, not a yes", () => {
    expect(finding(180, 10).is).toBe("yes");
    expect(finding(0, 11)).toMatchObject({ is: "unknown", found: "heading not planned, 11 kt" });
    expect(finding(undefined, 11).is).toBe("unknown");
  });

  it("[MCN-4, STG-15] a heading that is planned late answers it, and nobody is asked for the same wind again", () => {
    const story = given({ type: RICH }).manned().upTo("groundPower");
    story.say("supervisor", { type: "recordWeather", windKt: 18, fromDeg: 10 });
    expect(windWithinLimits.find(story.state, 1, story.now).is).toBe("unknown");
    expect(askedOf(story.state, "supervisor", story.now).map((a) => a.key)).not.toContain("weather");
    story.say("supervisor", { type: "amendPlan", headingDeg: 10, reason: "as she stands" });
    expect(story.state.headingDeg).toBe(10);
    expect(windWithinLimits.find(story.state, 1, story.now).is).toBe("yes");
  });

  it.each([
    // Ahead, but it swings to the beam: 21 kt across at 090 and at 270.
    ["36021KT 270V090", 0, "no", "21 kt across, as it swings"],
    ["36021KT 320V040", 0, "yes", undefined],
    // It swings through the tail.
    ["18009G11KT 150V210", 0, "no", "11 kt from behind, as it swings"],
    ["24011KT 200V280", 90, "no", "11 kt from behind, as it swings"],
    ["36011KT 320V040", 0, "yes", undefined],
    ["VRB11KT", 0, "no", "11 kt from behind, direction unknown"],
    ["///11KT", 0, "no", "11 kt from behind, direction unknown"],
  ] as const)("[MCN-4, MOD-62] %s on a nose at %i: %s", (wind, headingDeg, is, found) => {
    const story = given({ type: RICH, more: { headingDeg } }).manned();
    story.say("supervisor", { type: "recordWeather", metar: `EGLL 010850Z ${wind} CAVOK 21/10 Q1021` });
    expect(windWithinLimits.find(story.state, 1, story.now)).toMatchObject(found ? { is, found } : { is });
  });

  it("[MCN-4] a direction that a person saw takes the place of the report's, and of its swing", () => {
    const story = given({ type: RICH, more: { headingDeg: 0 } }).manned();
    const metar = "EGLL 010850Z 36021KT 270V090 CAVOK 21/10 Q1021";
    story.say("supervisor", { type: "recordWeather", metar, fromDeg: 10 });
    expect(story.state.weather?.swing).toBeUndefined();
    expect(windWithinLimits.find(story.state, 1, story.now).is).toBe("yes");
  });
});

describe("lightning", () => {
  const type: AircraftType = { ...RICH, conditions: [...RICH.conditions, "lightningClear"] };
  const story = () => given({ type }).manned().upTo("starting");

  it("[WEA-10, MCN-9] a thunderstorm in a pasted report stops work from when it is recorded", () => {
    const told = story();
    const metar = "EGLL 010850Z 24008KT 5000 TSRA SCT020CB 21/10 Q1021";
    told.say("supervisor", { type: "recordWeather", metar });
    expect(told.told("weatherRead")).toMatchObject([{ metar, thunder: true }]);
    expect(lightningClear.find(told.state, 1, told.now)).toMatchObject({
      is: "no",
      found: "distance unknown",
      at: told.now,
    });
    // It is nobody's flash: no person is asked for its thunder.
    expect(told.state.flashes).toMatchObject([{ miles: null, person: null }]);
  });

  it("[WEA-10] one that is over, forecast or distant does not", () => {
    for (const rest of [
      "RETS SCT020CB 21/10 Q1021",
      "21/10 Q1021 TEMPO TSRA",
      "21/10 Q1021 RMK LTG DSNT W",
    ]) {
      const told = story();
      told.say("supervisor", { type: "recordWeather", metar: `EGLL 010850Z 24008KT 9999 ${rest}` });
      expect(lightningClear.find(told.state, 1, told.now).is).toBe("yes");
    }
  });

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
