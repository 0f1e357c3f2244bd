import { HAND_SIGNALS } from "./all.ts";
import { LOOK_ALIKES } from "./lookAlikes.ts";
import type { Form } from "./signal.ts";

/** One question: which of these signals does the figure show? */
export interface Question {
  key: string;
  form: Form;
  options: readonly string[];
}

const OPTIONS = 4;

/**
 * Returns the questions of one round; the same round number gives the same questions. Signals that people confuse with
 * the answer are offered beside it.
 */
export function quiz(round: number, count: number): Question[] {
  const next = chance(round);
  return shuffled(HAND_SIGNALS, next)
    .slice(0, count)
    .map(({ key, wand }) => {
      const alike = LOOK_ALIKES.filter((l) => l.keys.includes(key)).flatMap((l) => l.keys);
      const others = shuffled(HAND_SIGNALS, next).map((s) => s.key);
      const wrong = [...new Set([...alike, ...others])].filter((k) => k !== key).slice(0, OPTIONS - 1);
      const form: Form = wand !== null && next() < 0.3 ? "wand" : "day";
      return { key, form, options: shuffled([key, ...wrong], next) };
    });
}

/** Returns the items in random order (Fisher and Yates). */
function shuffled<T>(of: readonly T[], next: () => number): T[] {
  const all = [...of];
  for (let i = all.length - 1; i > 0; i -= 1) {
    const j = Math.floor(next() * (i + 1));
    [all[i], all[j]] = [all[j] as T, all[i] as T];
  }
  return all;
}

/**
 * Returns a generator of numbers from 0 up to 1, seeded by the round: a linear congruential generator (Numerical
 * Recipes' factors).
 */
function chance(round: number): () => number {
  let state = round >>> 0;
  const next = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
  // Neighbouring rounds begin with similar numbers, so the first ones are dropped.
  for (let i = 0; i < 8; i += 1) next();
  return next;
}
