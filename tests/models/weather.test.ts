import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  flashToBangMiles,
  type LightningRule,
  lightningState,
  stagedActions,
} from "../../shared/models/weather/lightning.ts";
import {
  hoursLeft,
  noiseDose,
  OSHA_PERMISSIBLE,
  OSHA_PROGRAMME,
  permittedHours,
  timeWeightedAverage,
} from "../../shared/models/weather/noise.ts";
import {
  beaufort,
  planningWind,
  windOnNose,
  worstOnNose,
  wrapDegrees,
} from "../../shared/models/weather/wind.ts";
import { windChillC, windChillF } from "../../shared/models/weather/windChill.ts";
import { must } from "./must.ts";

describe("wind on the nose", () => {
  it.each([
    [20, 30, 17.321, 10.0],
    [20, 45, 14.142, 14.142],
    [20, 60, 10.0, 17.321],
  ])("[MOD-62] %d kt from %d degrees off the nose", (speed, off, head, cross) => {
    const got = windOnNose({ fromDeg: off, speed }, 0);
    expect(got.head).toBeCloseTo(head, 3);
    expect(got.cross).toBeCloseTo(cross, 3);
  });

  it("[MOD-62] 220 at 15 kt on heading 180: 11.491 head, 9.642 from starboard", () => {
    const got = windOnNose({ fromDeg: 220, speed: 15 }, 180);
    expect(got.head).toBeCloseTo(11.491, 3);
    expect(got.cross).toBeCloseTo(9.642, 3);
  });

  it("[MOD-62] north lies between 350 and 010: the sides are kept across it", () => {
    expect(wrapDegrees(350 - 10)).toBe(-20);
    expect(wrapDegrees(10 - 350)).toBe(20);
    expect(wrapDegrees(180)).toBe(180);
    expect(wrapDegrees(-180)).toBe(180);
    expect(windOnNose({ fromDeg: 350, speed: 10 }, 10).cross).toBeCloseTo(-3.42, 2);
    expect(windOnNose({ fromDeg: 10, speed: 10 }, 350).cross).toBeCloseTo(3.42, 2);
  });

  it("[MOD-62] components keep the speed at any angle", () => {
    const angle = fc.integer({ min: -720, max: 720 });
    fc.assert(
      fc.property(angle, angle, fc.integer({ min: 0, max: 60 }), (fromDeg, heading, speed) => {
        const { head, cross } = windOnNose({ fromDeg, speed }, heading);
        expect(Math.hypot(head, cross)).toBeCloseTo(speed, 9);
        const wrapped = wrapDegrees(fromDeg);
        expect(wrapped).toBeGreaterThan(-180);
        expect(wrapped).toBeLessThanOrEqual(180);
      }),
      { seed: 62 },
    );
  });

  it("[MOD-62] uses the gust, and the worst direction of a swinging wind", () => {
    expect(planningWind({ fromDeg: 90, speed: 17, gust: 27 }, 0).cross).toBeCloseTo(27, 9);
    expect(planningWind({ fromDeg: 90, speed: 17 }, 0).cross).toBeCloseTo(17, 9);
    expect(worstOnNose(18, 290, 360, 330).mostCross).toBeCloseTo(18 * Math.sin((40 * Math.PI) / 180), 9);
    expect(worstOnNose(18, 290, 20, 0)).toEqual({
      leastHead: expect.closeTo(6.156, 3),
      mostCross: expect.closeTo(16.914, 3),
    });
    expect(worstOnNose(3, 0, 360, 77)).toEqual({ leastHead: -3, mostCross: 3 });
  });

  it("[MOD-62] no direction within the swing is worse than the worst", () => {
    const deg = fc.integer({ min: 0, max: 359 });
    fc.assert(
      fc.property(deg, deg, deg, fc.double({ min: 0, max: 1, noNaN: true }), (from, sweep, heading, part) => {
        const worst = worstOnNose(10, from, from + sweep, heading);
        const one = windOnNose({ fromDeg: from + sweep * part, speed: 10 }, heading);
        expect(one.head).toBeGreaterThanOrEqual(worst.leastHead - 1e-9);
        expect(Math.abs(one.cross)).toBeLessThanOrEqual(worst.mostCross + 1e-9);
      }),
      { seed: 65, numRuns: 500 },
    );
  });
});

describe("Beaufort force", () => {
  it("[MOD-62] has the scale's knots at both ends of each force (WMO)", () => {
    const ranges = [
      [0, 0],
      [1, 3],
      [4, 6],
      [7, 10],
      [11, 16],
      [17, 21],
      [22, 27],
      [28, 33],
      [34, 40],
      [41, 47],
      [48, 55],
      [56, 63],
      [64, 120],
    ];
    ranges.forEach(([least, most], force) => {
      expect(beaufort(least ?? Number.NaN)).toBe(force);
      expect(beaufort(most ?? Number.NaN)).toBe(force);
    });
  });
});

describe("wind chill (US NWS chart of 2001)", () => {
  it.each([
    [30, [25, 21, 19, 17, 16, 15, 14, 13, 12, 12, 11, 10]],
    [0, [-11, -16, -19, -22, -24, -26, -27, -29, -30, -31, -32, -33]],
    [-20, [-34, -41, -45, -48, -51, -53, -55, -57, -58, -60, -61, -62]],
  ])("[MOD-63] row of %d degF, 5 to 60 mph", (degF, row) => {
    row.forEach((printed, i) => {
      expect(Math.round(must(windChillF(degF, 5 * (i + 1))))).toBe(printed);
    });
  });

  it("[MOD-63] metric: -10 degC at 20 km/h -17.86, -20 at 30 -32.57 (the formula's own values)", () => {
    expect(must(windChillC(-10, 20))).toBeCloseTo(-17.86, 2);
    expect(must(windChillC(-20, 30))).toBeCloseTo(-32.57, 2);
    // A copy of the metric chart lacks its -15 degC row; the formula has no such gap.
    expect(must(windChillC(-15, 20))).toBeLessThan(must(windChillC(-10, 20)));
  });

  it("[MOD-63] both forms agree within half a degree; outside their range they give nothing", () => {
    const air = fc.tuple(
      fc.double({ min: -40, max: 10, noNaN: true }),
      fc.double({ min: 5, max: 90, noNaN: true }),
    );
    fc.assert(
      fc.property(air, ([degC, kmh]) => {
        const metric = must(windChillC(degC, kmh));
        const inF = must(windChillF(degC * 1.8 + 32, kmh / 1.609344));
        expect(Math.abs((inF - 32) / 1.8 - metric)).toBeLessThan(0.5);
      }),
      { seed: 63 },
    );
    for (const [t, v] of [
      [51, 10],
      [30, 2],
      [Number.NaN, 10],
      [30, Number.NaN],
    ] as const) {
      expect(windChillF(t, v).ok).toBe(false);
    }
    expect(windChillC(10.1, 20).ok).toBe(false);
    expect(windChillC(0, 4.7).ok).toBe(false);
  });
});

describe("lightning", () => {
  /** US ramp guides quote the stop within 6 miles; the wait of half an hour is from memory. */
  const rule: LightningRule = { stopWithinMiles: 6, resumeAfter: 30 * 60_000 };

  it.each([
    [5, 1],
    [15, 3],
    [25, 5],
    [30, 6],
  ])("[MOD-64] %d s from flash to bang is %d miles", (seconds, miles) => {
    expect(flashToBangMiles(seconds)).toBe(miles);
  });

  it("[MOD-64] 30 s is 6 miles: stop, until half an hour after the last", () => {
    const flashes = [
      { at: 0, miles: flashToBangMiles(30) },
      { at: 60_000, miles: 7 },
    ];
    const stopped = { state: "stop", lastAt: 0, resumeAt: 1_800_000, nearestMiles: 6 };
    expect(lightningState(flashes, 60_000, rule)).toEqual(stopped);
    expect(lightningState(flashes, 1_799_999, rule)).toEqual(stopped);
    expect(lightningState(flashes, 1_800_000, rule)).toEqual({ state: "clear" });
    expect(lightningState(flashes.slice(1), 60_000, rule)).toEqual({ state: "clear" });
  });

  it("[MOD-64] a flash of unknown distance counts as near; a flash in the future does not count", () => {
    expect(lightningState([{ at: 0, miles: null }], 1, rule)).toMatchObject({
      state: "stop",
      nearestMiles: null,
    });
    expect(lightningState([{ at: 0, miles: Number.NaN }], 1, rule).state).toBe("stop");
    expect(lightningState([{ at: 2, miles: 1 }], 1, rule)).toEqual({ state: "clear" });
  });

  it("[MOD-64] another flash never lets work begin earlier", () => {
    const flash = fc.record({
      at: fc.integer({ min: 0, max: 4_000_000 }),
      miles: fc.option(fc.double({ min: 0, max: 20, noNaN: true })),
    });
    fc.assert(
      fc.property(
        fc.array(flash, { maxLength: 8 }),
        flash,
        fc.integer({ min: 0, max: 6_000_000 }),
        (all, more, now) => {
          const until = (flashes: typeof all) => {
            const s = lightningState(flashes, now, rule);
            return s.state === "stop" ? s.resumeAt : now;
          };
          expect(until([...all, more])).toBeGreaterThanOrEqual(until(all));
        },
      ),
      { seed: 64 },
    );
  });

  it("[MOD-64] a staged plan gives every action reached, nearest first (stages quoted by a US ramp guide)", () => {
    const stages = [
      { withinMiles: 15, action: "monitor" },
      { withinMiles: 8, action: "readyToCurtail" },
      { withinMiles: 5, action: "stopFuelling" },
      { withinMiles: 3, action: "headsetsOff" },
      { withinMiles: 2, action: "clearRamp" },
    ] as const;
    expect(stagedActions(16, stages)).toEqual([]);
    expect(stagedActions(5, stages)).toEqual(["stopFuelling", "readyToCurtail", "monitor"]);
    expect(stagedActions(null, stages)).toHaveLength(5);
  });
});

describe("noise (29 CFR 1910.95)", () => {
  // Table G-16 as quoted; the formula of appendix A from memory. They differ where the table is rounded.
  it.each([
    [90, 8, 8],
    [92, 6, 6.06],
    [95, 4, 4],
    [97, 3, 3.03],
    [100, 2, 2],
    [102, 1.5, 1.52],
    [105, 1, 1],
    [110, 0.5, 0.5],
    [115, 0.25, 0.25],
  ])("[MOD-66] %d dBA: table %d h, formula %d h", (dBA, table, formula) => {
    expect(must(permittedHours(dBA, OSHA_PERMISSIBLE))).toBeCloseTo(formula, 2);
    expect(Math.abs(must(permittedHours(dBA, OSHA_PERMISSIBLE)) - table)).toBeLessThanOrEqual(0.07);
  });

  const day = [
    { dBA: 100, hours: 0.5 },
    { dBA: 110, hours: 0.1 },
    { dBA: 95, hours: 1 },
  ];

  it("[MOD-66] half an hour at 100, 0.1 h at 110, one hour at 95: dose 70 %, average 87.4 dBA", () => {
    const dose = must(noiseDose(day, OSHA_PERMISSIBLE));
    expect(dose).toBeCloseTo(70, 9);
    expect(must(timeWeightedAverage(dose, OSHA_PERMISSIBLE))).toBeCloseTo(87.4, 1);
    // The rule prints 16.61 log10; five dB per factor of two gives 16.6096.
    expect(must(timeWeightedAverage(dose, OSHA_PERMISSIBLE))).toBeCloseTo(16.61 * Math.log10(0.7) + 90, 3);
  });

  it("[MOD-66] programme's action level: 85 dBA for eight hours is half the dose; below the threshold nothing counts", () => {
    expect(must(noiseDose([{ dBA: 85, hours: 8 }], OSHA_PROGRAMME))).toBeCloseTo(50, 9);
    expect(must(timeWeightedAverage(50, OSHA_PROGRAMME))).toBeCloseTo(85, 9);
    expect(must(noiseDose([{ dBA: 85, hours: 8 }], OSHA_PERMISSIBLE))).toBe(0);
    expect(must(noiseDose([{ dBA: 79.9, hours: 8 }], OSHA_PROGRAMME))).toBe(0);
    expect(must(timeWeightedAverage(0, OSHA_PERMISSIBLE))).toBeNull();
  });

  it("[MOD-66] the hours left use the dose up exactly", () => {
    const left = must(hoursLeft(day, 105, 100, OSHA_PERMISSIBLE));
    expect(left).toBeCloseTo(0.3, 9);
    expect(must(noiseDose([...day, { dBA: 105, hours: left }], OSHA_PERMISSIBLE))).toBeCloseTo(100, 9);
    expect(must(hoursLeft([...day, { dBA: 115, hours: 1 }], 105, 100, OSHA_PERMISSIBLE))).toBe(0);
    expect(must(hoursLeft(day, 60, 100, OSHA_PERMISSIBLE))).toBe(Number.POSITIVE_INFINITY);
  });
});
