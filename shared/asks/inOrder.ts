import type { Ask } from "./ask.ts";

/** Key of the ask whether a person is present. Any other answer meets it too. */
export const PRESENT = "present";

/**
 * Returns the asks, most pressing first. Among equal weights the one that somebody has waited for longest comes first;
 * an ask that nobody waits for comes last. The ask whether a person is present comes behind every ask of its weight,
 * because an answer to any of them also shows presence.
 */
export function inOrder(asks: readonly Ask[]): Ask[] {
  const order = asks
    .filter((a) => a.key !== PRESENT)
    .sort((a, b) => a.weight - b.weight || waitingSince(a) - waitingSince(b));
  const present = asks.find((a) => a.key === PRESENT);
  if (!present) return order;
  const before = order.findLastIndex((a) => a.weight <= present.weight);
  return order.toSpliced(before + 1, 0, present);
}

function waitingSince(ask: Ask): number {
  return ask.since ?? Number.MAX_SAFE_INTEGER;
}
