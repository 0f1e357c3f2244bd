import type { Priority } from "../../shared/alerts/definition.ts";

/** A tone for an alert's priority, or for a new ask. */
export type Tone = Exclude<Priority, "caution"> | "asked";

/** One steady note: pitch in hertz; start, from the tone's start, and length in seconds. */
export interface Note {
  hz: number;
  at: number;
  long: number;
}

interface Sound {
  notes: readonly Note[];
  /** Vibration and pause alternating, milliseconds. */
  vibrate: readonly number[];
}

const pulses = (hz: number, count: number, long: number, gap: number): Note[] =>
  Array.from({ length: count }, (_, i) => ({ hz, at: i * (long + gap), long }));

/** Two pitches alternating without a pause. */
const warble = (count: number, long: number): Note[] =>
  Array.from({ length: count }, (_, i) => ({ hz: i % 2 === 0 ? 1400 : 1000, at: i * long, long }));

/** Distinct by rhythm alone, for ears under a headset. The pitches are our own judgement. Most urgent first. */
export const TONES: Readonly<Record<Tone, Sound>> = {
  emergency: { notes: warble(8, 0.18), vibrate: [400, 100, 400, 100, 400] },
  alarm: { notes: pulses(950, 3, 0.3, 0.2), vibrate: [300, 200, 300, 200, 300] },
  warning: { notes: pulses(650, 2, 0.15, 0.15), vibrate: [150, 150, 150] },
  asked: { notes: pulses(520, 1, 0.12, 0), vibrate: [80] },
};

/** Most urgent first. */
export const TONE_ORDER: readonly Tone[] = ["emergency", "alarm", "warning", "asked"];

/** Returns the duration of a tone in seconds. */
export function lasts(tone: Tone): number {
  return Math.max(...TONES[tone].notes.map((n) => n.at + n.long));
}
