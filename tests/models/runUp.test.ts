import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { currentThrough, keepThrough } from "../../shared/models/calendar.ts";
import { featherCheck } from "../../shared/models/runUp/feather.ts";
import { magnetoCheck } from "../../shared/models/runUp/magneto.ts";
import { pressureSpread } from "../../shared/models/runUp/manifoldPressure.ts";
import { type EngineRunUp, type RunUpRules, readyForRelease } from "../../shared/models/runUp/release.ts";
import type { Unit } from "../../shared/protocol/quantity.ts";
import type { Limit } from "../../shared/types/limit.ts";
import type { Gauge } from "../../shared/types/schema.ts";
import { must } from "./must.ts";

/** TM 1-1500-204-23-1, table 7-2, step 10. */
const oneInch: Limit = {
  value: 1,
  unit: "inHg",
  source: { basis: "published", text: "TM 1-1500-204-23-1 table 7-2 step 10" },
};
const at = (pressures: readonly number[], rpm = 2000) =>
  pressures.map((manifoldInHg, i) => ({ engine: i + 1, manifoldInHg, rpm }));

describe("manifold pressure across engines", () => {
  it("[MOD-77] 27.0, 27.4, 27.9, 28.1 inHg spread 1.1: more than 1 (TM 1-1500-204-23-1)", () => {
    expect(must(pressureSpread(at([27.0, 27.4, 27.9, 28.1]), oneInch, 0))).toEqual({
      spread: expect.closeTo(1.1, 9),
      highest: 4,
      lowest: 1,
      within: false,
    });
    expect(must(pressureSpread(at([27.1, 27.4, 27.9, 28.1]), oneInch, 0)).within).toBe(true);
  });

  it("[MOD-77] compares at one speed only, and needs two engines", () => {
    const uneven = [
      { engine: 1, manifoldInHg: 27, rpm: 2000 },
      { engine: 2, manifoldInHg: 27, rpm: 2030 },
    ];
    expect(pressureSpread(uneven, oneInch, 25).ok).toBe(false);
    expect(pressureSpread(uneven, oneInch, 30).ok).toBe(true);
    expect(pressureSpread(at([27]), oneInch, 0).ok).toBe(false);
    expect(pressureSpread(at([27, 27], Number.NaN), oneInch, 50).ok).toBe(false);
    expect(pressureSpread(at([27, 28]), { ...oneInch, unit: "hPa" }, 0).ok).toBe(false);
  });

  it("[MOD-77] the spread is the largest difference of any two", () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 200, max: 400 }), { minLength: 2, maxLength: 8 }), (tenths) => {
        const got = must(pressureSpread(at(tenths.map((t) => t / 10)), oneInch, 0));
        const pairs = tenths.flatMap((a) => tenths.map((b) => Math.abs(a - b) / 10));
        expect(got.spread).toBeCloseTo(Math.max(...pairs), 9);
      }),
      { seed: 77 },
    );
  });
});

describe("magneto check", () => {
  const flat = { maxDrop: 175, maxDifference: 50 };
  const check = (left: number, right: number, limits = flat) =>
    must(magnetoCheck({ both: 1700, left: 1700 - left, right: 1700 - right }, limits)).faults;

  it("[MOD-78] a flat engine maker's manual: 150 and 95 are each within 175 and 55 apart, over 50", () => {
    expect(check(150, 95)).toEqual(["uneven"]);
    expect(check(150, 100)).toEqual([]);
    expect(check(175, 125)).toEqual([]);
    expect(check(176, 126)).toEqual(["leftOverMax"]);
  });

  it("[MOD-78] 25 to 75 and even is normal (AMT-P); no drop at all is a fault (switch not grounding, timing)", () => {
    const radial = { maxDrop: 75, maxDifference: 25 };
    expect(check(25, 25, radial)).toEqual([]);
    expect(check(75, 60, radial)).toEqual([]);
    expect(check(0, 20, radial)).toEqual(["leftNoDrop"]);
    expect(check(20, -5, radial)).toEqual(["rightNoDrop"]);
    expect(check(0, 0, radial)).toEqual(["leftNoDrop", "rightNoDrop"]);
    expect(check(50, 100, { maxDrop: 150, maxDifference: 50 })).toEqual([]);
  });

  it("[MOD-78] treats both sides alike: exchanging them exchanges the faults", () => {
    const rpm = fc.integer({ min: 1400, max: 1750 });
    const mirror = (f: string) => f.replace(/^left|^right/, (side) => (side === "left" ? "right" : "left"));
    fc.assert(
      fc.property(rpm, rpm, (left, right) => {
        const a = must(magnetoCheck({ both: 1700, left, right }, flat)).faults;
        const b = must(magnetoCheck({ both: 1700, left: right, right: left }, flat)).faults;
        expect([...b].map(mirror).sort()).toEqual([...a].sort());
      }),
      { seed: 78 },
    );
    expect(magnetoCheck({ both: Number.NaN, left: 1, right: 1 }, flat).ok).toBe(false);
  });
});

describe("feather check", () => {
  const limits = { maxDrop: 100, recovery: 20 };

  it("[MOD-79] pulled out by a drop of no more than 100 rpm (AOM46 3034); no answer and no recovery are faults", () => {
    const faults = (before: number, lowest: number, after: number) =>
      must(featherCheck({ before, lowest, after }, limits)).faults;
    expect(faults(1500, 1400, 1500)).toEqual([]);
    expect(faults(1500, 1399, 1490)).toEqual(["overMax"]);
    expect(faults(1500, 1500, 1500)).toEqual(["noResponse"]);
    expect(faults(1500, 1420, 1470)).toEqual(["notRecovered"]);
    expect(featherCheck({ before: 1500, lowest: Number.NaN, after: 1500 }, limits).ok).toBe(false);
  });
});

describe("ready for release", () => {
  const gauge = (id: string, unit: Unit, marks: Partial<Gauge>, perEngine = true): Gauge => ({
    id,
    name: id,
    unit,
    perEngine,
    scale: { from: 0, to: 1000, step: 1 },
    source: { basis: "published", text: "marking table of a 1940s pilot training manual; AOM46 3039" },
    ...marks,
  });
  const rules: RunUpRules = {
    gauges: [
      gauge("oilTemperature", "degC", { min: 40, normalLow: 80, normalHigh: 90, max: 93 }),
      gauge("carburettorHeat", "degF", { min: 80 }),
      gauge("suction", "inHg", { min: 3.5, max: 4.5 }, false),
      gauge("clock", "min", {}),
    ],
    magneto: { maxDrop: 100, maxDifference: 40 },
    feather: { maxDrop: 100, recovery: 20 },
    manifold: { limit: oneInch, rpmTolerance: 20 },
  };
  const good = (engine: number): EngineRunUp => ({
    engine,
    gauges: { oilTemperature: { value: 85, unit: "degC" }, carburettorHeat: { value: 80, unit: "degF" } },
    magneto: { both: 2000, left: 1940, right: 1950 },
    feather: { before: 1500, lowest: 1410, after: 1495 },
    power: { manifoldInHg: 28 + engine / 10, rpm: 2000 },
  });
  const suction = (value: number) => ({ suction: { value, unit: "inHg" as const } });
  const four = [1, 2, 3, 4].map(good);
  const but = (engine: number, change: Partial<EngineRunUp>) =>
    four.map((e) => (e.engine === engine ? { ...e, ...change } : e));

  it("[MOD-81] everything done and within its marks is ready", () => {
    expect(readyForRelease(four, suction(4), rules)).toEqual({ ready: true, faults: [], notes: [] });
    expect(readyForRelease([good(1)], suction(4), rules).ready).toBe(true);
    expect(readyForRelease([], suction(4), rules).ready).toBe(false);
  });

  it("[MOD-81] suction 4 ± 1/2 inHg and carburettor heat of 80 degF (AOM46 3039)", () => {
    for (const value of [3.5, 4.5]) expect(readyForRelease(four, suction(value), rules).ready).toBe(true);
    expect(readyForRelease(four, suction(3.4), rules).faults).toEqual([
      { code: "gauge", engine: null, gauge: "suction", band: "belowMin" },
    ]);
    expect(readyForRelease(four, suction(4.6), rules).faults).toEqual([
      { code: "gauge", engine: null, gauge: "suction", band: "over" },
    ]);
    const cool = but(2, { gauges: { ...good(2).gauges, carburettorHeat: { value: 79, unit: "degF" } } });
    expect(readyForRelease(cool, suction(4), rules).faults).toEqual([
      { code: "gauge", engine: 2, gauge: "carburettorHeat", band: "belowMin" },
    ]);
  });

  it("[MOD-81] usable and caution bands are named and do not stop the release", () => {
    const oil = (value: number) =>
      but(3, { gauges: { ...good(3).gauges, oilTemperature: { value, unit: "degC" } } });
    expect(readyForRelease(oil(40), suction(4), rules)).toEqual({
      ready: true,
      faults: [],
      notes: [{ engine: 3, gauge: "oilTemperature", band: "usable" }],
    });
    expect(readyForRelease(oil(91), suction(4), rules).notes).toEqual([
      { engine: 3, gauge: "oilTemperature", band: "caution" },
    ]);
    expect(readyForRelease(oil(39), suction(4), rules).ready).toBe(false);
    expect(readyForRelease(oil(94), suction(4), rules).ready).toBe(false);
  });

  it("[MOD-81] names each failing item with its engine", () => {
    const bad = but(4, {
      magneto: { both: 2000, left: 2000, right: 1890 },
      feather: { before: 1500, lowest: 1500, after: 1500 },
      power: { manifoldInHg: 29.5, rpm: 2000 },
    });
    expect(readyForRelease(bad, suction(4), rules).faults).toEqual([
      { code: "magneto", engine: 4, fault: "rightOverMax" },
      { code: "magneto", engine: 4, fault: "uneven" },
      { code: "magneto", engine: 4, fault: "leftNoDrop" },
      { code: "feather", engine: 4, fault: "noResponse" },
      { code: "manifoldSpread", engine: null, spread: expect.closeTo(1.4, 9), highest: 4, lowest: 1 },
    ]);
  });

  it("[MOD-81] a missing or unreadable reading stops the release", () => {
    const none = but(1, { gauges: {}, magneto: null, feather: null, power: null });
    expect(readyForRelease(none, {}, rules).faults).toEqual([
      { code: "gaugeNotRead", engine: 1, gauge: "oilTemperature" },
      { code: "gaugeNotRead", engine: 1, gauge: "carburettorHeat" },
      { code: "gaugeNotRead", engine: null, gauge: "suction" },
      { code: "notDone", engine: 1, check: "magneto" },
      { code: "notDone", engine: 1, check: "feather" },
      { code: "notDone", engine: 1, check: "power" },
    ]);
    const odd = but(1, {
      gauges: { ...good(1).gauges, oilTemperature: { value: 2000, unit: "degC" } },
      magneto: { both: -1, left: 0, right: 0 },
      power: { manifoldInHg: 28, rpm: 2500 },
    });
    expect(readyForRelease(odd, suction(4), rules).faults.map((f) => f.code)).toEqual([
      "gaugeUnreadable",
      "unreadable",
      "unreadable",
    ]);
  });

  it("[MOD-81] removing a reading never makes an aircraft ready", () => {
    const part = fc.constantFrom("magneto", "feather", "power", "gauges");
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 4 }), part, (engine, what) => {
        const less = but(engine, what === "gauges" ? { gauges: {} } : { [what]: null });
        expect(readyForRelease(less, suction(4), rules).ready).toBe(false);
      }),
      { seed: 81 },
    );
  });
});

describe("records and currency", () => {
  it("[MOD-82] 14 CFR 139.301: training of 31 January 2024 is kept 24 months, to January 2026; an incident 12", () => {
    expect(must(keepThrough("2024-01-31", 24))).toBe("2026-01");
    expect(must(keepThrough("2024-12-01", 12))).toBe("2025-12");
    expect(must(keepThrough("2024-11-30", 1))).toBe("2024-12");
  });

  it("[MOD-82] 14 CFR 139.329: trained in March 2025, due by the end of March 2026", () => {
    for (const day of ["2025-03-01", "2025-03-31"]) expect(must(currentThrough(day, 12))).toBe("2026-03-31");
    expect(must(currentThrough("2023-02-10", 12))).toBe("2024-02-29");
    expect(must(currentThrough("1999-02-10", 12))).toBe("2000-02-29");
    expect(must(currentThrough("2099-02-10", 12))).toBe("2100-02-28");
  });

  it("[MOD-82] agrees with the calendar of Date, and refuses an impossible day", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 40_000 }), fc.integer({ min: 0, max: 60 }), (days, months) => {
        const given = new Date(days * 86_400_000);
        const end = new Date(Date.UTC(given.getUTCFullYear(), given.getUTCMonth() + months + 1, 0));
        expect(must(currentThrough(given.toISOString().slice(0, 10), months))).toBe(
          end.toISOString().slice(0, 10),
        );
      }),
      { seed: 82 },
    );
    for (const day of [
      "2025-02-29",
      "2025-13-01",
      "2025-00-10",
      "2025-04-31",
      "25-04-01",
      "",
      "2025-04-01T00:00",
    ]) {
      expect(keepThrough(day, 12).ok).toBe(false);
      expect(currentThrough(day, 12).ok).toBe(false);
    }
    expect(keepThrough("2025-01-01", 1.5).ok).toBe(false);
    expect(keepThrough("2025-01-01", -1).ok).toBe(false);
  });
});
