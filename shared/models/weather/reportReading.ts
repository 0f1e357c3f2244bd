import type { Outcome } from "../outcome.ts";
import type { StatedPart } from "./reportFault.ts";

/** The reading of a report; or why there is none, with the part that it states twice and differently. */
export type ReportReading<T> =
  | Extract<Outcome<T>, { ok: true }>
  | { ok: false; why: string; twice?: StatedPart };

export function twice(part: StatedPart, why: string): { ok: false; why: string; twice: StatedPart } {
  return { ok: false, why, twice: part };
}
