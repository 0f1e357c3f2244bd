import { describe, expect, it } from "vitest";
import type { DefectLife } from "../../shared/defects/lives.ts";
import { defectTrendCsv, survivalCsv } from "../../shared/history/lives/csv.ts";
import { defectTrend, defectTrendSchema, LEAST_DEFECTS } from "../../shared/history/lives/defectTrend.ts";
import { equipmentLives, starterLives } from "../../shared/history/lives/lives.ts";
import { LEAST_FAILURES, survivalOf, survivalSchema } from "../../shared/history/lives/survival.ts";
import { readCsv } from "../../shared/house/lists/csv.ts";
import { FIRST_DAY, startRow } from "./rows.ts";

const DAY = 86_400_000;
const at = (day: number) => FIRST_DAY + (day - 1) * DAY;
const rows = (from: number, to: number, equipment: string[] = []) =>
  Array.from({ length: to - from + 1 }, (_, i) => startRow(from + i, { equipment }));
const told = (lives: { id: string; starts: number; failed: boolean }[]) =>
  lives.map(({ id, starts, failed }) => `${id} ${starts} ${failed ? "failed" : "watched"}`);

describe("the lives of equipment", () => {
  const used = rows(1, 30, ["C-1"]);
  const states = (...of: [number, "broken" | "usedUp" | "other" | null][]) =>
    of.map(([day, cause]) => ({ at: at(day) - 1, out: cause === null ? null : { cause } }));

  it("[HIS-32] end in a failure when the register has the piece broken, and begin anew when it is back", () => {
    const lives = equipmentLives("C-1", states([1, null], [8, null], [11, "broken"], [21, null]), used);
    expect(told(lives)).toEqual(["C-1 10 failed", "C-1 10 watched"]);
    expect(lives.map((l) => l.last)).toEqual([at(10), at(30)]);
  });

  it("[HIS-32] end without a failure when it was used up or left otherwise; one without a start is left out", () => {
    const lives = equipmentLives("C-1", states([1, null], [6, "usedUp"], [7, null], [9, "other"]), used);
    expect(told(lives)).toEqual(["C-1 5 watched", "C-1 2 watched"]);
    expect(equipmentLives("C-2", states([1, null], [9, "broken"]), used)).toEqual([]);
    // A cause that changes while it is out begins and ends nothing.
    expect(told(equipmentLives("C-1", states([1, null], [4, "broken"], [5, "other"]), used))).toEqual([
      "C-1 3 failed",
    ]);
  });

  it("[HIS-32] of starters end in a failure when the engine starts with another afterwards", () => {
    const fitted = (day: number, starter: string | null, serial = "E-2") =>
      startRow(day, { starter, serial });
    const all = [
      ...[1, 2, 3].map((d) => fitted(d, "S-1")),
      fitted(4, "S-2"),
      // It was moved to another engine: it lives on there.
      ...[5, 6].map((d) => fitted(d, "S-3")),
      fitted(7, "S-3", "E-9"),
      fitted(8, null),
    ];
    expect(told(starterLives(all))).toEqual(["S-1 3 failed", "S-2 1 failed", "S-3 3 watched"]);
  });
});

describe("survival in starts", () => {
  const life = (starts: number, failed: boolean, id = `C-${starts}`) => ({ id, starts, failed, last: at(1) });

  it("[HIS-33] has the steps of Kaplan and Meier, and a Weibull law within its interval", () => {
    // NIST e-Handbook 8.4.1.3, its hours read as starts.
    const failed = [54, 187, 216, 240, 244, 335, 361, 373, 375, 386].map((n) => life(n, true));
    const running = Array.from({ length: 10 }, (_, i) => life(500, false, `R-${i}`));
    const survival = survivalOf("cart", [...failed, ...running]);
    expect(survival.steps.at(-1)).toMatchObject({
      starts: 386,
      atRisk: 11,
      survival: expect.closeTo(0.5, 12),
    });
    expect(survival.weibull?.scale.value).toBeCloseTo(606.528, 2);
    expect(survival.weibull?.shape.value).toBeCloseTo(1.7208, 4);
    for (const { value, low, high } of survival.weibull?.curve ?? [])
      expect(low < value && value < high && low >= 0 && high <= 1).toBe(true);
    expect(survival.weibull?.curve.at(-1)?.starts).toBe(500);
    expect(survivalSchema.parse(survival)).toEqual(survival);
    const read = readCsv(survivalCsv([survival]));
    if (!("rows" in read)) throw new Error("not a table");
    const cells = read.rows.map((r) => r.cells);
    expect(cells[0]).toEqual(["table", "item", "measure", "value", "unit", "source"]);
    expect(new Set(cells.map((c) => c.length))).toEqual(new Set([6]));
    expect(cells.find((c) => c[0] === "cart Weibull" && c[2] === "scale")?.[3]).toBe(
      String(survival.weibull?.scale.value),
    );
    expect(cells.filter((c) => c[0] === "cart lives" && c[2] === "starts")).toHaveLength(20);
  });

  it("[HIS-35] has no law of too few failures, nor where they determine none", () => {
    const few = Array.from({ length: LEAST_FAILURES - 1 }, (_, i) => life(i + 3, true));
    expect(survivalOf("cart", few)).toMatchObject({ failures: 4, least: 5, weibull: null });
    expect(survivalOf("cart", few).steps).toHaveLength(4);
    expect(survivalOf("cart", [...few, life(9, true)]).weibull).not.toBeNull();
    const alike = Array.from({ length: 6 }, (_, i) => life(7, true, `A-${i}`));
    expect(survivalOf("cart", alike)).toMatchObject({ failures: 6, weibull: null });
    expect(survivalOf("starter", [])).toMatchObject({ lives: [], steps: [], weibull: null });
  });
});

describe("the trend of an aircraft's defects", () => {
  const defect = (no: number, day: number): DefectLife => ({
    ...{
      no,
      id: `d-${no}`,
      words: `Leak ${no}`,
      engine: 2,
      barsStart: false,
      deferrals: [],
      startedSince: [],
      mendings: [],
      pictures: [],
      closed: null,
    },
    written: { at: FIRST_DAY + day * DAY, name: "Di", session: null },
  });
  const trendOf = (days: readonly number[], watched: number) =>
    defectTrend(
      "QX-ONE",
      days.map((d, i) => defect(i + 1, d)),
      FIRST_DAY,
      FIRST_DAY + watched * DAY,
    );

  it("[HIS-34] is that of NIST e-Handbook 8.4.5, its hours read as days: rarer, one in 279 days now", () => {
    const trend = trendOf([5, 40, 43, 175, 389, 712, 747, 795, 1299, 1478], 1500);
    expect(trend.trend).toMatchObject({
      is: "rarer",
      exponent: {
        value: expect.closeTo(0.53723, 5),
        low: expect.closeTo(0.2576, 3),
        high: expect.closeTo(0.9179, 3),
      },
      laplace: expect.closeTo(-1.32695, 5),
      // T / (n b) with the exponent as fitted; 310 with the unbiased one.
      daysBetween: expect.closeTo(1500 / (10 * 0.53723), 2),
    });
    expect(trend.trend?.curve.at(-1)).toEqual({ at: FIRST_DAY + 1500 * DAY, count: 10 });
    expect(defectTrendSchema.parse(trend)).toEqual(trend);
    const read = readCsv(defectTrendCsv(trend));
    if (!("rows" in read)) throw new Error("not a table");
    expect(
      read.rows
        .map((r) => r.cells)
        .find((c) => c[2] === "exponent, high")
        ?.slice(3, 5),
    ).toEqual([String(trend.trend?.exponent.high), ""]);
  });

  it("[HIS-34] is named only where the whole interval is on one side of 1", () => {
    expect(trendOf([100, 200, 300, 400, 500, 600, 700, 800, 900], 1000).trend?.is).toBe("none");
    expect(trendOf([700, 800, 850, 900, 920, 940, 960, 970, 980, 990], 1000).trend?.is).toBe("moreFrequent");
  });

  it("[HIS-35] is not given of too few defects, nor where nothing was watched", () => {
    const few = trendOf([1, 2, 3, 4], 100);
    expect([few.trend, few.defects.length, few.least]).toEqual([null, 4, LEAST_DEFECTS]);
    expect(trendOf([1, 2, 3, 4, 5], 100).trend).not.toBeNull();
    // Defects of the first start's moment and before are no part of it.
    expect(trendOf([-9, 0, 1, 2, 3, 4], 100).defects.map((d) => d.no)).toEqual([3, 4, 5, 6]);
    const unwatched = defectTrend("QX-ONE", [defect(1, 5)], null, FIRST_DAY + 9 * DAY);
    expect([unwatched.trend, unwatched.defects]).toEqual([null, []]);
    const read = readCsv(defectTrendCsv(unwatched));
    expect("rows" in read && read.rows.length).toBe(3);
  });
});
