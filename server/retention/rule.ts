/** Kinds of data with a retention period. */
export type Kept = "sessions" | "incidents" | "people" | "signIns" | "pictures";

/** Calendar months to keep each kind after its end. */
export type Periods = Readonly<Record<Kept, number>>;

/**
 * Default periods, from 14 CFR 139.301(b), "consecutive calendar months", for the nearest kind of record: (5)
 * self-inspection and (8) airport condition 12, (7) accident and incident 12, (1) personnel training 24. It has
 * nothing near sign-ins and pictures; they are kept as long as sessions. An operator under another rule sets other periods.
 */
export const PERIODS: Periods = { sessions: 12, incidents: 12, people: 24, signIns: 12, pictures: 12 };

/** Returns the end of the retention period: the end of the calendar month `months` after the month of `end`, UTC. */
export function keptUntil(end: number, months: number): number {
  const date = new Date(end);
  return Date.UTC(date.getUTCFullYear(), date.getUTCMonth() + months + 1, 1);
}
