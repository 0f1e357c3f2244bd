import { found, type Outcome, refused } from "../outcome.ts";
import type { VoltSample } from "./groundPowerTrace.ts";

const MOST_SECONDS = 600;
const DIGIT = /\d/;

/**
 * Reads a meter's trace from text. Each line is one sample: seconds and volts, separated by comma, semicolon, tab or
 * space. After a semicolon or tab a comma is the decimal sign. A first line without a digit is a heading. Refuses, with
 * the line and its fault: not two figures, times that do not rise, a time before 0 or beyond ten minutes.
 */
export function readTraceText(text: string, most: number): Outcome<VoltSample[]> {
  const samples: VoltSample[] = [];
  for (const [i, line] of text.split(/\r?\n/).entries()) {
    const plain = line.trim();
    if (plain === "" || (samples.length === 0 && !DIGIT.test(plain))) continue;
    const cells = /[;\t]/.test(plain)
      ? plain.split(/[;\t]+/).map((c) => c.trim().replace(",", "."))
      : plain.split(/[\s,]+/);
    const [seconds = Number.NaN, volts = Number.NaN] = cells.map((c) => (c === "" ? Number.NaN : Number(c)));
    const at = `line ${i + 1}`;
    if (cells.length !== 2 || !Number.isFinite(seconds) || !Number.isFinite(volts))
      return refused(`${at}: seconds and volts are needed, and nothing else`);
    if (!(seconds >= 0 && seconds <= MOST_SECONDS))
      return refused(`${at}: ${seconds} s is outside 0 to ${MOST_SECONDS} s`);
    const ms = Math.round(seconds * 1_000_000) / 1000;
    const before = samples.at(-1);
    if (before && !(ms > before.ms)) return refused(`${at}: the time does not rise`);
    samples.push({ ms, volts });
    if (samples.length > most) return refused(`more than ${most} samples: give a shorter record`);
  }
  return samples.length < 2 ? refused("a record has at least two samples") : found(samples);
}
