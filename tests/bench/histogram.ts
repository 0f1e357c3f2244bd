import { mkdirSync, writeFileSync } from "node:fs";

const FOLDER = new URL("../../.bench/", import.meta.url);

/** Returns the value at the given share of the sorted values (nearest rank). */
function quantile(sorted: readonly number[], share: number): number {
  return sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] ?? Number.NaN;
}

/** Returns the printed figures of a set of latencies in milliseconds. */
export interface Spread {
  count: number;
  p50: number;
  p95: number;
  p99: number;
  max: number;
  /** Returns the whole histogram as percentiles, finer towards the end. */
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

/** Writes a run's figures and histograms to `.bench` for later comparison. */
export function keep(name: string, figures: object): void {
  mkdirSync(FOLDER, { recursive: true });
  const at = new Date().toISOString();
  writeFileSync(
    new URL(`${name}-${at.replaceAll(":", "")}.json`, FOLDER),
    JSON.stringify({ at, ...figures }),
  );
}
