/**
 * A figure that was worked out, or the reason why the input cannot give one. A refusal is about the input; it is never
 * a verdict.
 */
export type Outcome<T> = { ok: true; value: T } | { ok: false; why: string };

export function found<T>(value: T): Outcome<T> {
  return { ok: true, value };
}

export function refused(why: string): { ok: false; why: string } {
  return { ok: false, why };
}

/**
 * Returns words for a figure outside its physical range (both ends are inside), or null. NaN is outside every range.
 */
export function outside(what: string, value: number, low: number, high: number, unit = ""): string | null {
  if (value >= low && value <= high) return null;
  const u = unit ? ` ${unit}` : "";
  return `${what} ${value}${u} is outside ${low} to ${high}${u}`;
}

/** Returns words for the first value that is no finite figure, with its place in the list from 1; null when none is. */
export function notFinite(what: string, values: readonly number[], unit = ""): string | null {
  const at = values.findIndex((v) => !Number.isFinite(v));
  return at < 0 ? null : `${what} ${at + 1} is ${values[at]}${unit ? ` ${unit}` : ""}, not a figure`;
}
