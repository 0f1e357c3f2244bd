import { writeCsv } from "../../house/lists/csv.ts";
import type { DefectTrend } from "./defectTrend.ts";
import type { Survival } from "./survival.ts";

type Cell = string | number | null;
/** One figure: the table, the item it is of, its measure, value, unit and source. */
type Line = [table: string, item: Cell, measure: string, value: Cell, unit: string, source: string];

const HEAD = ["table", "item", "measure", "value", "unit", "source"];
const FITTED = "maximum likelihood with censoring; interval of 95 % by the observed information";
const day = (at: number) => new Date(at).toISOString();

const file = (lines: readonly Line[]) =>
  writeCsv([HEAD, ...lines.map((line) => line.map((cell) => (cell === null ? "" : String(cell))))]);

/** Returns lives and their survival as CSV (RFC 4180): one figure in a line, with its unit and its source. */
export function survivalCsv(all: readonly Survival[]): string {
  return file(
    all.flatMap(({ of, lives, steps, weibull }): Line[] => [
      ...lives.flatMap(({ id, starts, failed, last }): Line[] => [
        [`${of} lives`, id, "starts", starts, "count", "record: engagements with it; register: in service"],
        [`${of} lives`, id, "failed", String(failed), "", "register"],
        [`${of} lives`, id, "last", day(last), "UTC", "record"],
      ]),
      ...steps.map(({ starts, survival }): Line => {
        return [`${of} survival`, starts, "survival", survival, "share", "Kaplan and Meier"];
      }),
      ...(weibull
        ? [...limits(of, "scale", "starts", weibull.scale), ...limits(of, "shape", "", weibull.shape)]
        : []),
      ...(weibull?.curve ?? []).flatMap(({ starts, value, low, high }): Line[] => [
        [`${of} Weibull`, starts, "survival", value, "share", FITTED],
        [`${of} Weibull`, starts, "survival, low", low, "share", FITTED],
        [`${of} Weibull`, starts, "survival, high", high, "share", FITTED],
      ]),
    ]),
  );
}

function limits(
  of: string,
  name: string,
  unit: string,
  value: { value: number; low: number; high: number },
): Line[] {
  return [
    [`${of} Weibull`, null, name, value.value, unit, FITTED],
    [`${of} Weibull`, null, `${name}, low`, value.low, unit, FITTED],
    [`${of} Weibull`, null, `${name}, high`, value.high, unit, FITTED],
  ];
}

/** Returns an aircraft's defects and their trend in the same form. */
export function defectTrendCsv({ aircraft, from, to, defects, trend }: DefectTrend): string {
  const law = "power law M(t) = a t^b, watched to the end; interval by chi-square (MIL-HDBK-189)";
  return file([
    ["watched", aircraft, "from", from === null ? null : day(from), "UTC", "first start on record"],
    ["watched", aircraft, "to", day(to), "UTC", "server's clock"],
    ...defects.map(({ no, at }): Line => ["defects", no, "written", day(at), "UTC", "aircraft's record"]),
    ...(trend
      ? ([
          ["trend", aircraft, "exponent", trend.exponent.value, "", law],
          ["trend", aircraft, "exponent, low", trend.exponent.low, "", law],
          ["trend", aircraft, "exponent, high", trend.exponent.high, "", law],
          ["trend", aircraft, "between defects", trend.daysBetween, "d", law],
          ["trend", aircraft, "Laplace's score", trend.laplace, "", "standard normal without a trend"],
        ] satisfies Line[])
      : []),
  ]);
}
