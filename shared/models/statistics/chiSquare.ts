/** Most degrees of freedom: with more, exp(-x / 2) leaves the doubles where the law still has its mass. */
export const MOST_DEGREES = 1_000;

/**
 * Returns the share of a chi-square law at or below a value, for even degrees of freedom from 2 to 1,000: 1 - exp(-x / 2)
 * sum (x / 2)^k / k! for k below half the degrees (Abramowitz and Stegun 26.4.5). NaN for others.
 */
export function chiSquareAtMost(value: number, degrees: number): number {
  if (!Number.isInteger(degrees / 2) || degrees < 2 || degrees > MOST_DEGREES) return Number.NaN;
  if (!(value > 0)) return 0;
  const half = value / 2;
  let term = Math.exp(-half);
  let above = term;
  for (let k = 1; k < degrees / 2; k += 1) {
    term *= half / k;
    above += term;
  }
  return Math.max(0, 1 - above);
}

/** Returns the value at or below which a share of such a law lies, by bisection. */
export function chiSquareQuantile(share: number, degrees: number): number {
  if (Number.isNaN(chiSquareAtMost(1, degrees)) || !(share > 0 && share < 1)) return Number.NaN;
  let [low, high] = [0, degrees];
  while (chiSquareAtMost(high, degrees) < share) high *= 2;
  for (let i = 0; i < 100; i += 1) {
    const middle = (low + high) / 2;
    if (chiSquareAtMost(middle, degrees) < share) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
