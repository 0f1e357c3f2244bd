/** Count, mean and sample standard deviation (divisor n - 1; null below two values). */
export interface Moments {
  n: number;
  mean: number;
  sd: number | null;
}

/**
 * Returns mean and standard deviation in one pass (Welford 1962, as in Knuth TAOCP vol. 2 sec. 4.2.2). It never
 * subtracts two large squares, so values far from zero keep their digits. Null for no values.
 */
export function moments(values: readonly number[]): Moments | null {
  let mean = 0;
  let squares = 0;
  values.forEach((x, i) => {
    const step = x - mean;
    mean += step / (i + 1);
    squares += step * (x - mean);
  });
  const n = values.length;
  return n === 0 ? null : { n, mean, sd: n < 2 ? null : Math.sqrt(squares / (n - 1)) };
}
