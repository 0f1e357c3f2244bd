const DAY = 86_400_000;
const WEEK = 7 * DAY;
/** The first Monday since 1970 began, which was a Thursday. */
const MONDAY = 4 * DAY;

/** Returns the Monday, 00:00 UTC, of the week of a moment (a week begins on Monday, ISO 8601). */
export const weekOf = (at: number): number => Math.floor((at - MONDAY) / WEEK) * WEEK + MONDAY;

/** Returns the beginnings of the last `count` weeks, that of `now` included, the oldest first. */
export const weeksBefore = (now: number, count: number): number[] =>
  Array.from({ length: count }, (_, i) => weekOf(now) - (count - 1 - i) * WEEK);
