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
}

export function spreadOf(values: readonly number[]): Spread {
  const sorted = [...values].sort((a, b) => a - b);
  return {
    count: sorted.length,
    p50: quantile(sorted, 0.5),
    p95: quantile(sorted, 0.95),
    p99: quantile(sorted, 0.99),
    max: sorted.at(-1) ?? Number.NaN,
  };
}
