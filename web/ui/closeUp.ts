import type { FigureSpec } from "./figureSpec.ts";

/** Steps of the instrument that a close-up shows beside what it is drawn for: wide enough apart for a glove. */
const STEPS = 10;

/**
 * Returns the part of an instrument's scale on which a figure is expected: around the figure it is compared with, else
 * around the good band, else around the last reading, else the whole scale. It suggests no figure.
 */
export function closeUp(
  { from, to, step, low, high, before }: FigureSpec,
  against: number | null,
): { from: number; to: number } {
  const within = (a: number, b: number) => ({
    from: Number(Math.max(from, a).toFixed(4)),
    to: Number(Math.min(to, b).toFixed(4)),
  });
  if (against !== null) return within(against - 1.5 * STEPS * step, against + 0.5 * STEPS * step);
  if (low !== null && high !== null) {
    const beside = Math.max((high - low) / 2, STEPS * step);
    return within(low - beside, high + beside);
  }
  if (before !== null) return within(before - STEPS * step, before + STEPS * step);
  return { from, to };
}
