import type { Outcome } from "../outcome.ts";
import type { StatedPart } from "./reportFault.ts";

/** What was read from a report; or why nothing was, with the part that it states twice and differently. */
export type ReportReading<T> =
  | Extract<Outcome<T>, { ok: true }>
  | { ok: false; why: string; twice?: StatedPart };

export function twice(part: StatedPart, why: string): { ok: false; why: string; twice: StatedPart } {
  return { ok: false, why, twice: part };
}
