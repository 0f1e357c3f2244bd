import { mkdirSync, writeFileSync } from "node:fs";

const FOLDER = new URL("../../.bench/", import.meta.url);

/** The figure below which the given share of the sorted values lies (nearest rank). */
function quantile(sorted: readonly number[], share: number): number {
  return sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] ?? Number.NaN;
}

/** What is printed of a set of latencies, milliseconds. */
export interface Spread {
  count: number;
  p50: number;
  p95: number;
  p99: number;
  max: number;
  /** The whole histogram as percentiles: from the middle outwards ever finer. */
  curve: [percent: number, ms: number][];
}

const PERCENTS = [1, 5, 10, 25, 50, 75, 90, 95, 98, 99, 99.5, 99.9, 99.95, 99.99, 100];

export function spreadOf(values: readonly number[]): Spread {
  const sorted = [...values].sort((a, b) => a - b);
  return {
    count: sorted.length,
    p50: quantile(sorted, 0.5),
    p95: quantile(sorted, 0.95),
    p99: quantile(sorted, 0.99),
    max: sorted.at(-1) ?? Number.NaN,
    curve: PERCENTS.map((percent) => [percent, quantile(sorted, percent / 100)]),
  };
}

/** Keeps a run's figures and histograms in `.bench`, for whoever compares them later. */
export function keep(name: string, figures: object): void {
  mkdirSync(FOLDER, { recursive: true });
  const at = new Date().toISOString();
  writeFileSync(
    new URL(`${name}-${at.replaceAll(":", "")}.json`, FOLDER),
    JSON.stringify({ at, ...figures }),
  );
}
