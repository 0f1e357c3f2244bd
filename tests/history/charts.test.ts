import { describe, expect, it } from "vitest";
import { chartLimits, figureChart } from "../../shared/history/charts/chart.ts";
import { erasOf } from "../../shared/history/charts/eras.ts";
import { BASELINE, CUSUM, EWMA } from "../../shared/history/charts/rules.ts";
import { changedSince } from "../../shared/history/charts/signals.ts";
import { cusumChart } from "../../shared/models/statistics/cusum.ts";
import { ewmaChart } from "../../shared/models/statistics/ewma.ts";
import { must } from "../models/must.ts";
import { MONTGOMERY, rowsOf, startRow } from "./rows.ts";
import { averageRun, normals } from "./runs.ts";

const steady = (n: number) => MONTGOMERY.slice(0, n);
const points = (values: readonly number[]) =>
  values.map((value, i) => ({ session: `s-${i}`, seq: 1, at: i, value }));

describe("the series of a figure", () => {
  it("[HIS-5] begins anew where the engine was moved, overhauled or, for its starter, given another one", () => {
    const rows = [
      startRow(1, { figures: { starterS: { value: 7, unit: "s" } } }),
      startRow(2, { starter: "S-2" }),
      startRow(3, { starter: "S-2", hours: 12 }),
      startRow(4, { starter: "S-2", hours: 13, aircraft: "QX-TWO" }),
      startRow(5, { starter: "S-2", hours: 13, aircraft: "QX-TWO", n: 3 }),
    ];
    const causes = (figure: "starterS" | "oilFirstS") => erasOf(rows, figure)?.eras.map((e) => e.cause);
    expect(causes("starterS")).toEqual(["first", "otherStarter", "overhauled", "moved", "moved"]);
    expect(causes("oilFirstS")).toEqual(["first", "overhauled", "moved", "moved"]);
    expect(figureChart(rows, "oilFirstS")?.era.points).toHaveLength(1);
  });

  it("[HIS-5] is in one unit, and leaves out a start whose engine did not catch and a figure nobody read", () => {
    const rows = [
      startRow(1, { figures: { idleOil: { value: 60, unit: "psi" } } }),
      startRow(2, { figures: {} }),
      startRow(3, { figures: { idleOil: { value: 4, unit: "bar" } } }),
    ];
    // 4 bar / 0.0689476 bar per psi (NIST SP 811).
    const era = erasOf(rows, "idleOil");
    expect(era?.unit).toBe("psi");
    expect(era?.eras[0]?.points.map((p) => p.value)).toEqual([60, expect.closeTo(58.015, 3)]);
    expect(erasOf(rows, "starterS")).toBeNull();
    const gaveUp = [
      startRow(1, { figures: { starterS: { value: 7, unit: "s" } } }),
      startRow(2, { reached: "cranked", figures: { starterS: { value: 30, unit: "s" } } }),
    ];
    expect(erasOf(gaveUp, "starterS")?.eras[0]?.points.map((p) => p.value)).toEqual([7]);
  });
});

describe("the limits of a figure", () => {
  it("[HIS-6] stand on the first 20 starts; fewer say how many are missing, and draw none", () => {
    const short = figureChart(rowsOf("oilFirstS", steady(BASELINE - 3)), "oilFirstS");
    expect([short?.why, short?.missing, short?.limits]).toEqual(["tooFew", 3, null]);
    const enough = figureChart(rowsOf("oilFirstS", steady(BASELINE)), "oilFirstS");
    expect([enough?.why, enough?.missing, enough?.limits?.baseline.length]).toEqual([null, 0, BASELINE]);
    const flat = figureChart(rowsOf("oilFirstS", Array(25).fill(6)), "oilFirstS");
    expect([flat?.why, flat?.limits]).toEqual(["noSpread", null]);
    const air = figureChart(rowsOf("airC", MONTGOMERY), "airC");
    expect([air?.why, air?.missing, air?.limits]).toEqual(["notJudged", 0, null]);
  });

  it("[HIS-6] are those of NIST/SEMATECH 6.3.2 on Montgomery's set (arithmetic in another program)", () => {
    const limits = chartLimits(points(MONTGOMERY));
    expect(limits?.mean).toBeCloseTo(9.996, 10);
    expect(limits?.sd).toBeCloseTo(1.37411348, 6);
    expect(limits?.individuals.upper).toBeCloseTo(9.996 + 3 * 1.37411348, 6);
    expect(limits?.individuals.rangeUpper).toBeCloseTo(3.267 * 1.128 * 1.37411348, 6);
    expect(limits?.neighbours.r).toBeCloseTo(-0.09944396, 6);
    expect(limits?.ewma.averages.at(-1)).toBeCloseTo(10.86360819, 6);
    expect(limits?.ewma.uppers.at(-1)).toBeCloseTo(11.62024792, 6);
    expect(limits?.cusum.high.at(-1)).toBeCloseTo(1.37745719, 6);
  });

  it("[HIS-7] name each signal by its rule, its side and its start", () => {
    const limits = chartLimits(points([...steady(20), 10, 16, 10.2, ...Array(12).fill(8)]));
    const said = limits?.signals.map((s) => [s.rule, s.side, s.point.at]) ?? [];
    expect(said).toContainEqual(["beyondLimits", "high", 21]);
    expect(said).toContainEqual(["jump", "high", 21]);
    expect(said).toContainEqual(["jump", "low", 22]);
    expect(said).toContainEqual(["sum", "low", 34]);
    expect(said).toContainEqual(["average", "low", 34]);
    expect(said.filter(([, , at]) => Number(at) < 20)).toEqual([]);
    expect(limits && changedSince(points(Array(35).fill(0)), limits, "low")?.at).toBe(23);
  });

  it("[HIS-8] give no signal where neighbours depend on each other, and say so", () => {
    const wave = Array.from({ length: 30 }, (_, i) => 10 + 3 * Math.sin(i / 3));
    const limits = chartLimits(points([...wave, 40]));
    expect(limits?.neighbours.r).toBeGreaterThan(0.447);
    expect([limits?.trusted, limits?.signals]).toEqual([false, []]);
    const white = chartLimits(points([...steady(20), 40]));
    expect([white?.trusted, white?.neighbours.most]).toEqual([true, expect.closeTo(0.4472, 4)]);
    expect(white?.signals.length).toBeGreaterThan(0);
  });
});

describe("average run lengths of the charts on known parameters, by simulation", () => {
  const within = (share: number, published: number) => (found: number) =>
    expect(Math.abs(found / published - 1)).toBeLessThan(share);
  const cusum = (decision: number) => (values: number[]) =>
    must(cusumChart(values, { target: 0, slack: CUSUM.slack, decision })).signal?.index ?? null;

  // NIST e-Handbook 6.3.2.3, two-sided, k = 0.5: in control 168 for h = 4 and 465 for h = 5.
  it.each([
    [4, 168, 1_600],
    [5, 465, 4_500],
  ])("[HIS-9] CUSUM, slack 0.5, interval %d, in control: %d values", (decision, published, longest) => {
    within(0.05, published)(averageRun({ seed: 1, runs: 10_000, longest }, cusum(decision)));
  });

  // The same table: a shift of one standard deviation is found after 8.38 and 10.4 values.
  it.each([
    [4, 8.38],
    [5, 10.4],
  ])("[HIS-9] CUSUM, slack 0.5, interval %d, a shift of one sd: %d values", (decision, published) => {
    within(0.05, published)(averageRun({ seed: 2, runs: 10_000, longest: 200, shift: 1 }, cusum(decision)));
  });

  // Lucas and Saccucci, Technometrics 32 (1990) 1-12, as printed by Montgomery: 500 in control, 10.5 at one sd (from memory).
  it.each([
    [0, 500, 4_500, 10_000],
    [1, 10.5, 300, 10_000],
  ])("[HIS-9] EWMA, weight 0.2, width 2.962, shift %d: %d values", (shift, published, longest, runs) => {
    const plan = { target: 0, sd: 1, ...EWMA };
    const found = averageRun({ seed: 3, runs, longest, shift }, (values) => {
      const { averages, upper } = must(ewmaChart(values, plan));
      const first = averages.findIndex((a) => Math.abs(a) > upper);
      return first < 0 ? null : first;
    });
    within(0.05, published)(found);
  });

  // 1 / (2 (1 - Phi(3))) = 370.4.
  it("[HIS-9] individuals, three sd: 370.4 values", () => {
    const found = averageRun({ seed: 4, runs: 10_000, longest: 4_000 }, (values) => {
      const first = values.findIndex((v) => Math.abs(v) > 3);
      return first < 0 ? null : first;
    });
    within(0.05, 370.4)(found);
  });
});

describe("the rules as shipped, on a baseline of 20", () => {
  const share = (seed: number, shift: number, runs: number) => {
    const next = normals(seed);
    let drifted = 0;
    let starts = 0;
    for (let run = 0; run < runs; run += 1) {
      const values = Array.from({ length: 60 }, (_, i) => next() + (i < 20 ? 0 : shift));
      const signals = chartLimits(points(values))?.signals ?? [];
      const high = signals.filter((s) => s.side === "high" && s.rule !== "jump");
      if (high.some((s) => s.rule === "sum" || s.rule === "average")) drifted += 1;
      starts += new Set(high.map((s) => s.point.at)).size;
    }
    return { drifted: drifted / runs, perStart: starts / runs / 40 };
  };

  it("[HIS-9] call a steady engine drifting in at most one of ten histories of 40 starts, and find one sd in three of four", () => {
    const still = share(9, 0, 1_000);
    expect(still.drifted).toBeLessThan(0.1);
    expect(still.perStart).toBeLessThan(0.02);
    expect(share(10, 1, 1_000).drifted).toBeGreaterThan(0.75);
  });
});
