import type { Priority } from "../../shared/alerts/kinds.ts";

/** What a device sounds: an alert of its priority, or something new asked. */
export type Tone = Exclude<Priority, "caution"> | "asked";

/** One steady note: pitch in hertz, beginning and length in seconds from the tone's start. */
export interface Note {
  hz: number;
  at: number;
  long: number;
}

interface Sound {
  notes: readonly Note[];
  /** Vibration and pause in turn, milliseconds. */
  vibrate: readonly number[];
}

const pulses = (hz: number, count: number, long: number, gap: number): Note[] =>
  Array.from({ length: count }, (_, i) => ({ hz, at: i * (long + gap), long }));

/** Two pitches in turn without a pause. */
const warble = (count: number, long: number): Note[] =>
  Array.from({ length: count }, (_, i) => ({ hz: i % 2 === 0 ? 1400 : 1000, at: i * long, long }));

/** Told apart by rhythm alone, for ears under a headset; the pitches are our own judgement. Most pressing first. */
export const TONES: Readonly<Record<Tone, Sound>> = {
  emergency: { notes: warble(8, 0.18), vibrate: [400, 100, 400, 100, 400] },
  alarm: { notes: pulses(950, 3, 0.3, 0.2), vibrate: [300, 200, 300, 200, 300] },
  warning: { notes: pulses(650, 2, 0.15, 0.15), vibrate: [150, 150, 150] },
  asked: { notes: pulses(520, 1, 0.12, 0), vibrate: [80] },
};

/** Most pressing first. */
export const TONE_ORDER: readonly Tone[] = ["emergency", "alarm", "warning", "asked"];

/** Seconds a tone takes. */
export function lasts(tone: Tone): number {
  return Math.max(...TONES[tone].notes.map((n) => n.at + n.long));
}
