import type { FigureChart } from "../../../shared/history/charts/chart.ts";
import type { ChartSignal, SignalRule } from "../../../shared/history/charts/limits.ts";

/** The content of one strip. */
export type LaneKind = "starts" | "average" | "ranges" | "sums";

export interface LanePoint {
  session: string;
  at: number;
  value: number;
  /** A rule names it. */
  signal: boolean;
}

/** One strip of a figure's charts: its points, and the lines they are compared with. */
export interface Lane {
  kind: LaneKind;
  /** Points that are joined by a line; another run begins after a start at which nothing was read. */
  runs: LanePoint[][];
  /** Lines over time. The value at the end is written beside it. */
  lines: { is: "mean" | "limit"; points: { at: number; value: number }[] }[];
}

/** Returns the strips of a figure. Without limits there is one, of the starts alone. */
export function lanesOf(chart: FigureChart, unread: readonly number[]): Lane[] {
  const { era, earlier, limits } = chart;
  const { points } = era;
  const last = points.at(-1)?.at ?? 0;
  const first = points[0]?.at ?? 0;
  const named = (rules: readonly SignalRule[], sides: readonly ChartSignal["side"][]) =>
    new Set(
      (limits?.signals ?? []).flatMap((s) =>
        rules.includes(s.rule) && sides.includes(s.side) ? [s.point.at] : [],
      ),
    );
  const level = (is: "mean" | "limit", value: number, from = first) => ({
    is,
    points: [
      { at: from, value },
      { at: last, value },
    ],
  });
  const marked = (
    values: readonly { session: string; at: number; value: number }[],
    rules: SignalRule[],
    sides: readonly ChartSignal["side"][] = ["high", "low"],
  ) => {
    const signals = named(rules, sides);
    return runsOf(
      values.map(({ session, at, value }) => ({ session, at, value, signal: signals.has(at) })),
      unread,
    );
  };
  const before = earlier.flatMap((e) =>
    runsOf(
      e.points.map((p) => ({ ...p, signal: false })),
      unread,
    ),
  );
  if (!limits) return [{ kind: "starts", runs: [...before, ...marked(points, [])], lines: [] }];
  const { mean, individuals, ewma, cusum, baseline } = limits;
  const later = points.slice(baseline.length);
  const since = later[0]?.at ?? last;
  const along = (values: readonly number[], sign = 1) =>
    later.map((p, i) => ({ ...p, value: sign * (values[i] ?? 0) }));
  const ranges = points
    .slice(1)
    .map((p, i) => ({ ...p, value: Math.abs(p.value - (points[i]?.value ?? p.value)) }));
  const starts: Lane = {
    kind: "starts",
    runs: [...before, ...marked(points, ["beyondLimits"])],
    lines: [level("limit", individuals.upper), level("mean", mean), level("limit", individuals.lower)],
  };
  const rangesLane: Lane = {
    kind: "ranges",
    runs: marked(ranges, ["jump"]),
    lines: [level("limit", individuals.rangeUpper)],
  };
  if (later.length === 0) return [starts, rangesLane];
  return [
    starts,
    {
      kind: "average",
      runs: marked(along(ewma.averages), ["average"]),
      lines: [
        { is: "limit", points: along(ewma.uppers) },
        level("mean", mean, since),
        { is: "limit", points: along(ewma.lowers) },
      ],
    },
    rangesLane,
    {
      kind: "sums",
      runs: [
        ...marked(along(cusum.high), ["sum"], ["high"]),
        ...marked(along(cusum.low, -1), ["sum"], ["low"]),
      ],
      lines: [
        level("limit", cusum.decision, since),
        level("mean", 0, since),
        level("limit", -cusum.decision, since),
      ],
    },
  ];
}

/** Returns the points in runs, broken where a start between two of them was not read. */
function runsOf(points: readonly LanePoint[], unread: readonly number[]): LanePoint[][] {
  const runs: LanePoint[][] = [];
  for (const point of points) {
    const run = runs.at(-1);
    const before = run?.at(-1);
    if (run && before && !unread.some((at) => at > before.at && at < point.at)) run.push(point);
    else runs.push([point]);
  }
  return runs;
}

/** Returns the range of a lane's figures, with a tenth of air above and below. */
export function reachOf({ runs, lines }: Lane): { low: number; high: number } {
  const all = [...runs.flat(), ...lines.flatMap((l) => l.points)].map((p) => p.value);
  const [low, high] = [Math.min(...all), Math.max(...all)];
  const air = (high - low || Math.abs(high) || 1) * 0.12;
  return { low: low - air, high: high + air };
}

/** Returns the first days of months to write on the axis, at most as many as fit. */
export function monthsBetween(from: number, to: number, most: number): number[] {
  const first = new Date(from);
  const months: number[] = [];
  for (let i = 1; ; i += 1) {
    const at = Date.UTC(first.getUTCFullYear(), first.getUTCMonth() + i, 1);
    if (at > to) break;
    months.push(at);
  }
  const every = Math.max(1, Math.ceil(months.length / most));
  return months.filter((_, i) => i % every === 0);
}
