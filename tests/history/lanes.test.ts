import { describe, expect, it } from "vitest";
import { figureChart } from "../../shared/history/charts/chart.ts";
import { lanesOf, monthsBetween, reachOf } from "../../web/ui/charts/lanes.ts";
import { FIRST_DAY, MONTGOMERY, rowsOf, startRow } from "./rows.ts";

const chartOf = (values: readonly number[]) => {
  const chart = figureChart(rowsOf("oilNormalS", values), "oilNormalS");
  if (!chart) throw new Error("it was read");
  return chart;
};

describe("the strips of a figure", () => {
  it("[HIS-15] are one of the starts alone where there are no limits, and four with them", () => {
    expect(lanesOf(chartOf(MONTGOMERY.slice(0, 12)), []).map((l) => l.kind)).toEqual(["starts"]);
    expect(lanesOf(chartOf(MONTGOMERY.slice(0, 20)), []).map((l) => l.kind)).toEqual(["starts", "ranges"]);
    const lanes = lanesOf(chartOf([...MONTGOMERY, 16]), []);
    expect(lanes.map((l) => l.kind)).toEqual(["starts", "average", "ranges", "sums"]);
    const [starts, , , sums] = lanes;
    expect(starts?.runs.flat().map((p) => p.value)).toEqual([...MONTGOMERY, 16]);
    expect(
      starts?.runs
        .flat()
        .filter((p) => p.signal)
        .map((p) => p.value),
    ).toEqual([16]);
    expect(starts?.lines.map((l) => l.is)).toEqual(["limit", "mean", "limit"]);
    expect(Math.min(...(sums?.runs.flat().map((p) => p.value) ?? []))).toBeLessThanOrEqual(0);
  });

  it("[HIS-15] mark a sum on the side on which it is beyond its limit alone", () => {
    const sums = lanesOf(chartOf([...MONTGOMERY.slice(0, 20), 14, 14, 14, 14]), []).find(
      (l) => l.kind === "sums",
    );
    const signs = sums?.runs.flat().flatMap((p) => (p.signal ? [Math.sign(p.value)] : []));
    expect([...new Set(signs)]).toEqual([1]);
  });

  it("[HIS-15] are broken where a start between two was not read", () => {
    const rows = [
      ...rowsOf("oilNormalS", [6, 7, 8]),
      startRow(10, { figures: { oilNormalS: { value: 9, unit: "s" } } }),
    ];
    const chart = figureChart(rows, "oilNormalS");
    const unread = [startRow(5).at];
    const [lane] = chart ? lanesOf(chart, unread) : [];
    expect(lane?.runs.map((r) => r.map((p) => p.value))).toEqual([[6, 7, 8], [9]]);
  });

  it("[HIS-15] reach beyond every figure and limit, and name at most as many months as fit", () => {
    for (const lane of lanesOf(chartOf(MONTGOMERY), [])) {
      const { low, high } = reachOf(lane);
      const all = [...lane.runs.flat(), ...lane.lines.flatMap((l) => l.points)].map((p) => p.value);
      expect([low < Math.min(...all), high > Math.max(...all)]).toEqual([true, true]);
    }
    const year = monthsBetween(FIRST_DAY, FIRST_DAY + 364 * 86_400_000, 12);
    expect(year.map((at) => new Date(at).getUTCMonth())).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11]);
    expect(monthsBetween(FIRST_DAY, FIRST_DAY + 364 * 86_400_000, 4).length).toBeLessThanOrEqual(4);
  });
});
