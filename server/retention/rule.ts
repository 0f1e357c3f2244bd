/** What is kept for how long. */
export type Kept = "sessions" | "incidents" | "people" | "signIns";

/** Calendar months that each is kept after its end. */
export type Periods = Readonly<Record<Kept, number>>;

/**
 * The periods of 14 CFR 139.301(b), "consecutive calendar months", for what comes nearest to our records: (5)
 * self-inspection and (8) airport condition 12, (7) accident and incident 12, (1) personnel training 24; for sign-ins, which no part of it comes near, as for sessions. An operator to
 * whom another rule applies sets others.
 */
export const PERIODS: Periods = { sessions: 12, incidents: 12, people: 24, signIns: 12 };

/** When what ended at `end` need be kept no longer: with the end of the calendar month so many months later, UTC. */
export function keptUntil(end: number, months: number): number {
  const date = new Date(end);
  return Date.UTC(date.getUTCFullYear(), date.getUTCMonth() + months + 1, 1);
}
