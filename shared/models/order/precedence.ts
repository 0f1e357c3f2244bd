import type { Outcome } from "../outcome.ts";

/** `before` must be started before `after`. */
export interface MustPrecede {
  before: number;
  after: number;
}

/**
 * Returns for each item, by its index in `items`, the set of items that must come before it, as a bit mask. Refuses a
 * pair that names an unknown item, and a circle; the refusal gives the circle, each member before the next and the last
 * before the first.
 */
export function precedenceSets(
  items: readonly number[],
  pairs: readonly MustPrecede[],
): Outcome<number[]> | { ok: false; why: string; circle: number[] } {
  const place = new Map(items.map((item, i) => [item, i]));
  const sets = items.map(() => 0);
  for (const { before, after } of pairs) {
    const from = place.get(before);
    const to = place.get(after);
    if (from === undefined || to === undefined) {
      return { ok: false, why: `unknown item in ${before} before ${after}` };
    }
    sets[to] = (sets[to] ?? 0) | (1 << from);
  }
  const circle = findCircle(sets);
  if (!circle) return { ok: true, value: sets };
  const members = circle.map((i) => items[i] ?? Number.NaN);
  return { ok: false, why: `${members.join(" before ")} before ${members[0]}`, circle: members };
}

/**
 * Returns a circle, or null. It removes items that no remaining item precedes; from the rest it walks back along
 * predecessors until one repeats.
 */
function findCircle(sets: readonly number[]): number[] | null {
  let left = (1 << sets.length) - 1;
  for (let again = true; again; ) {
    again = false;
    sets.forEach((before, i) => {
      if (left & (1 << i) && (before & left) === 0) {
        left &= ~(1 << i);
        again = true;
      }
    });
  }
  if (left === 0) return null;
  const walked: number[] = [];
  let at = lowest(left);
  while (!walked.includes(at)) {
    walked.unshift(at);
    at = lowest((sets[at] ?? 0) & left);
  }
  return walked.slice(0, walked.indexOf(at) + 1);
}

/** Returns the index of the lowest bit set. */
function lowest(set: number): number {
  return 31 - Math.clz32(set & -set);
}
