import { found, type Outcome, refused } from "./outcome.ts";

/** A calendar day, ISO 8601, e.g. 2025-03-09. */
export type IsoDay = string;
/** A calendar month, e.g. 2026-01. */
export type IsoMonth = string;

/**
 * Returns the last month in which a record is kept, if it is kept for whole calendar months after the month of its
 * making (14 CFR 139.301 counts consecutive calendar months: a record made in January 2024 and kept 24 months stays to
 * January 2026).
 */
export function keepThrough(made: IsoDay, months: number): Outcome<IsoMonth> {
  const day = parts(made);
  if (!day) return refused(`${made} is not a day`);
  if (!(Number.isInteger(months) && months >= 0)) return refused("months must be whole");
  const count = day.year * 12 + (day.month - 1) + months;
  return found(`${pad(Math.floor(count / 12), 4)}-${pad((count % 12) + 1, 2)}`);
}

/**
 * Returns the last day on which training is current: the end of the last of the consecutive calendar months after the
 * month of the training (14 CFR 139.329: 12 months; training in March 2025 is current to 31 March 2026).
 */
export function currentThrough(given: IsoDay, months: number): Outcome<IsoDay> {
  const month = keepThrough(given, months);
  if (!month.ok) return month;
  const [year = 0, inYear = 0] = month.value.split("-").map(Number);
  return found(`${month.value}-${pad(daysIn(year, inYear), 2)}`);
}

function parts(day: IsoDay): { year: number; month: number } | null {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(day);
  if (!match) return null;
  const [year, month, date] = match.slice(1).map(Number);
  if (year === undefined || month === undefined || date === undefined) return null;
  return month >= 1 && month <= 12 && date >= 1 && date <= daysIn(year, month) ? { year, month } : null;
}

/** Returns the number of days in a month of the Gregorian calendar. */
function daysIn(year: number, month: number): number {
  const leap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0;
  return [31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month - 1] ?? 0;
}

function pad(value: number, length: number): string {
  return String(value).padStart(length, "0");
}
