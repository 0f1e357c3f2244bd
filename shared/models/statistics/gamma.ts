/** Lanczos coefficients, g = 7, n = 9 (Godfrey's set, as in Numerical Recipes 3rd ed. sec. 6.1 in kind). */
const G = 7;
const FIRST = 0.99999999999980993;
const REST = [
  676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059, 12.507343278686905,
  -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
];

/** Returns the gamma function for x above 0, to about 15 digits, by the Lanczos approximation. NaN otherwise. */
export function gamma(x: number): number {
  if (!(x > 0)) return Number.NaN;
  if (x < 0.5) return Math.PI / (Math.sin(Math.PI * x) * gamma(1 - x));
  const z = x - 1;
  const series = REST.reduce((sum, c, i) => sum + c / (z + i + 1), FIRST);
  const t = z + G + 0.5;
  return Math.sqrt(2 * Math.PI) * t ** (z + 0.5) * Math.exp(-t) * series;
}
