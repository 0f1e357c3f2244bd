import { found, type Outcome, outside, refused } from "../outcome.ts";
import { INDEX_TABLE } from "./viscosityIndexTable.ts";

/** Above this viscosity at 100 °C, mm²/s, the standard gives L and H by formula. */
const FORMULA_ABOVE = 70;

/** Returns L and H for a viscosity at 100 °C: linear between the rows of Table 1, and by formula above 70 mm²/s. */
function referenceOils(y: number): Outcome<{ l: number; h: number }> {
  if (y > FORMULA_ABOVE) {
    return found({ l: 0.8353 * y ** 2 + 14.67 * y - 216, h: 0.1684 * y ** 2 + 11.85 * y - 97 });
  }
  const next = INDEX_TABLE.findIndex(([row]) => row >= y);
  const b = INDEX_TABLE[next];
  if (!b) return refused(`${y} mm2/s at 100 degC is beyond the table held (26) and below the formula (70)`);
  const a = INDEX_TABLE[next - 1] ?? b;
  const part = b[0] === a[0] ? 0 : (y - a[0]) / (b[0] - a[0]);
  return found({ l: a[1] + part * (b[1] - a[1]), h: a[2] + part * (b[2] - a[2]) });
}

/**
 * Returns the viscosity index (ISO 2909 / ASTM D2270), not rounded, of an oil of `u` mm²/s at 40 °C and `y` at 100 °C.
 * Up to 100: (L − U)/(L − H)·100. Above: N = log(H/U)/log Y, VI = (10^N − 1)/0.00715 + 100. Y is at least 2 mm²/s.
 * Refuses a lower Y, for which the index is not defined, Y between 26 and 70, and oil that is not thinner when hotter.
 */
export function viscosityIndex(u: number, y: number): Outcome<number> {
  const why =
    outside("viscosity at 100 degC", y, 2, 1000, "mm2/s") ??
    outside("viscosity at 40 degC", u, 2, 1e6, "mm2/s");
  if (why) return refused(why);
  if (u <= y) return refused("oil is thinner at 100 degC than at 40 degC");
  const reference = referenceOils(y);
  if (!reference.ok) return reference;
  const { l, h } = reference.value;
  if (u >= h) return found(((l - u) / (l - h)) * 100);
  return found((10 ** (Math.log(h / u) / Math.log(y)) - 1) / 0.00715 + 100);
}

/** Returns the index as the standard prints it: a whole number, with halves rounded to the even one. */
export function printedIndex(index: number): number {
  const below = Math.floor(index);
  const half = index - below;
  if (half !== 0.5) return Math.round(index);
  return below % 2 === 0 ? below : below + 1;
}
