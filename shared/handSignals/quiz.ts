import { HAND_SIGNALS } from "./all.ts";
import { LOOK_ALIKES } from "./lookAlikes.ts";
import type { Form } from "./signal.ts";

/** A figure is shown; which of these is it? */
export interface Question {
  key: string;
  form: Form;
  options: readonly string[];
}

const OPTIONS = 4;

/** Questions of one round, the same for the same round number. What is easily mistaken is offered beside the answer. */
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

/** Fisher and Yates. */
function shuffled<T>(of: readonly T[], next: () => number): T[] {
  const all = [...of];
  for (let i = all.length - 1; i > 0; i -= 1) {
    const j = Math.floor(next() * (i + 1));
    [all[i], all[j]] = [all[j] as T, all[i] as T];
  }
  return all;
}

/** Numbers from 0 up to 1 in an order given by the round: a linear congruential generator (Numerical Recipes' factors). */
function chance(round: number): () => number {
  let state = round >>> 0;
  const next = () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
  // Neighbouring rounds begin alike: the first numbers are thrown away.
  for (let i = 0; i < 8; i += 1) next();
  return next;
}
