import { found, type Outcome, outside, refused } from "../outcome.ts";

/** Rated capacity in ampere-hours, the hours it is rated over, and Peukert's exponent (1 for an ideal battery). */
export interface Rating {
  ampHours: number;
  hours: number;
  exponent: number;
}

export function badRating({ ampHours, hours, exponent }: Rating): string | null {
  return (
    outside("capacity", ampHours, 0.1, 1000, "Ah") ??
    outside("rated hours", hours, 0.1, 100, "h") ??
    outside("Peukert exponent", exponent, 1, 1.6)
  );
}

/**
 * Returns the hours for which a lead-acid battery gives a steady current: t = H·(C / (I·H))^k (Peukert 1897). Valid at
 * constant current and temperature, at or above the rated current. Refuses a lower current, where the law promises more
 * than the rating. Not for nickel-cadmium.
 */
export function peukertHours(rating: Rating, amps: number): Outcome<number> {
  const why = badRating(rating);
  if (why) return refused(why);
  const { ampHours, hours, exponent } = rating;
  const low = outside("current", amps, (ampHours / hours) * (1 - 1e-12), 5000, "A");
  return low ? refused(low) : found(hours * (ampHours / (amps * hours)) ** exponent);
}
