/** Weather while it is entered by hand. Each figure starts blank; a gust is `none` once the person said so. */
export interface ByHand {
  windKt: number | null;
  gustKt: number | "none" | null;
  temperatureC: number | null;
}

export const UNREAD: ByHand = { windKt: null, gustKt: null, temperatureC: null };

const MOST_KT = 150;
const COLDEST_C = -60;
const HOTTEST_C = 60;

const limited = (value: number, from: number, to: number) => Math.min(to, Math.max(from, value));

/** A key for less cannot begin a figure that has none below it: a touch would enter its limit. */
export function windStepped(at: ByHand, steps: number): ByHand {
  if (at.windKt === null && steps < 0) return at;
  return { ...at, windKt: limited((at.windKt ?? 0) + steps, 0, MOST_KT) };
}

/** Gusts begin from the wind. */
export function gustStepped(at: ByHand, steps: number): ByHand {
  const read = typeof at.gustKt === "number" ? at.gustKt : null;
  if (read === null && steps < 0) return at;
  return { ...at, gustKt: limited((read ?? at.windKt ?? 0) + steps, 0, MOST_KT) };
}

export const airStepped = (at: ByHand, steps: number): ByHand => ({
  ...at,
  temperatureC: limited((at.temperatureC ?? 0) + steps, COLDEST_C, HOTTEST_C),
});

/** Returns what still has to be read before it can be recorded: wind, and gusts above the wind or none; null for nothing. */
export function lacksReading({ windKt, gustKt }: ByHand): "wind" | "gusts" | "gustsBelow" | null {
  if (windKt === null) return "wind";
  if (gustKt === null) return "gusts";
  return gustKt !== "none" && gustKt <= windKt ? "gustsBelow" : null;
}
