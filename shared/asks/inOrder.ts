import type { Ask } from "./ask.ts";

/** The ask whether somebody is there, which any answer to anything meets. */
export const PRESENT = "present";

/**
 * Most pressing first. Where somebody waits for the answer the longest wait comes first; what nobody waits for comes
 * after. Whether a person is there is asked behind everything as heavy whose limit comes sooner: answering that is
 * being there.
 */
export function inOrder(asks: readonly Ask[]): Ask[] {
  const order = asks
    .filter((a) => a.key !== PRESENT)
    .sort((a, b) => a.weight - b.weight || waitingSince(a) - waitingSince(b));
  const present = asks.find((a) => a.key === PRESENT);
  if (!present) return order;
  const before = order.findLastIndex(
    (a) => a.weight < present.weight || (a.weight === present.weight && isSooner(a, present)),
  );
  return order.toSpliced(before + 1, 0, present);
}

function waitingSince(ask: Ask): number {
  return ask.since ?? Number.MAX_SAFE_INTEGER;
}

function isSooner(ask: Ask, than: Ask): boolean {
  return ask.dueAt !== null && than.dueAt !== null && ask.dueAt <= than.dueAt;
}
