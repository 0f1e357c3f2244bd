import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cheapestOrder, type Sequencing } from "../../shared/models/order/cheapestOrder.ts";
import { precedenceSets } from "../../shared/models/order/precedence.ts";
import { must } from "./must.ts";

/** Returns every order of 0 to n - 1. */
function permutations(n: number): number[][] {
  if (n === 0) return [[]];
  return permutations(n - 1).flatMap((p) =>
    Array.from({ length: n }, (_, at) => [...p.slice(0, at), n - 1, ...p.slice(at)]),
  );
}

/** Returns the cost of one order by the question's own steps; Infinity where precedence is broken. */
function costOf({ after, step }: Sequencing, order: readonly number[]): number {
  let placed = 0;
  let cost = 0;
  let last: number | null = null;
  for (const next of order) {
    if ((after[next] ?? 0) & ~placed) return Number.POSITIVE_INFINITY;
    cost = step(cost, placed, last, next);
    placed |= 1 << next;
    last = next;
  }
  return cost;
}

const all = (n: number) => (1 << n) - 1;
const free = (n: number) => Array.from({ length: n }, () => 0);
const sumOver = (set: number, p: readonly number[]) => p.reduce((s, x, i) => (set & (1 << i) ? s + x : s), 0);
const at = (list: readonly number[], i: number) => list[i] ?? Number.NaN;

/** One machine without idle time: an item's cost depends on when it ends. */
const oneMachine = (
  p: readonly number[],
  cost: (item: number, end: number) => number,
  combine: (a: number, b: number) => number = (a, b) => a + b,
  after: readonly number[] = free(p.length),
): Sequencing => ({
  count: p.length,
  after,
  step: (soFar, placed, _last, next) => combine(soFar, cost(next, sumOver(placed, p) + at(p, next))),
});

/** Two machines in a row: `soFar` is the time at which the second is free. */
const flowShop = (a: readonly number[], b: readonly number[]): Sequencing => ({
  count: a.length,
  after: free(a.length),
  step: (soFar, placed, _last, next) => Math.max(soFar, sumOver(placed, a) + at(a, next)) + at(b, next),
});

const oneBased = (order: readonly number[] | undefined) => order?.map((i) => i + 1);

describe("published sequencing examples (instances and orders from memory, optima by every permutation)", () => {
  const late =
    (d: readonly number[], w: readonly number[] = d.map(() => 1)) =>
    (i: number, end: number) =>
      at(w, i) * Math.max(0, end - at(d, i));

  it("[MOD-74] Pinedo, Scheduling, ex. 3.1.5: chains 1-2-3-4 and 5-6-7, weighted completion 1967", () => {
    const w = [6, 18, 12, 8, 8, 17, 18];
    const pairs = [
      [1, 2],
      [2, 3],
      [3, 4],
      [5, 6],
      [6, 7],
    ].map(([before, after]) => ({ before: before ?? 0, after: after ?? 0 }));
    const after = must(precedenceSets([1, 2, 3, 4, 5, 6, 7], pairs));
    const question = oneMachine([3, 6, 6, 5, 4, 8, 10], (i, end) => at(w, i) * end, undefined, after);
    const best = cheapestOrder(question);
    expect(best?.cost).toBe(1967);
    expect(oneBased(best?.order)).toEqual([1, 2, 5, 6, 3, 7, 4]);
  });

  it("[MOD-74] Pinedo ex. 3.2 (Lawler): greatest cost 10, reached by 1-2-3 and 2-1-3", () => {
    const h = [(c: number) => 1 + c, (c: number) => 1.2 * c, () => 10];
    const question = oneMachine([2, 3, 5], (i, end) => h[i]?.(end) ?? Number.NaN, Math.max);
    const best = cheapestOrder(question);
    expect(best?.cost).toBe(10);
    expect(["1,2,3", "2,1,3"]).toContain(oneBased(best?.order)?.join());
    expect(costOf(question, [0, 1, 2])).toBe(10);
    expect(costOf(question, [1, 0, 2])).toBe(10);
  });

  it("[MOD-74] Moore and Hodgson: two late of five", () => {
    const d = [9, 17, 18, 19, 21];
    const question = oneMachine([7, 8, 4, 6, 6], (i, end) => (end > at(d, i) ? 1 : 0));
    expect(cheapestOrder(question)?.cost).toBe(2);
    // {3, 4, 5} on time, the rest after them.
    expect(costOf(question, [2, 3, 4, 0, 1])).toBe(2);
  });

  it("[MOD-74] total tardiness 370, by 1-2-4-5-3 or 2-1-4-5-3", () => {
    const best = cheapestOrder(oneMachine([121, 79, 147, 83, 130], late([260, 266, 266, 336, 337])));
    expect(best?.cost).toBe(370);
    expect(["1,2,4,5,3", "2,1,4,5,3"]).toContain(oneBased(best?.order)?.join());
  });

  it("[MOD-74] weighted tardiness 408 by 1-4-2-3 (Pinedo's tabu example), and 55 (second instance)", () => {
    const first = cheapestOrder(oneMachine([10, 10, 13, 4], late([4, 2, 1, 12], [14, 12, 1, 12])));
    expect(first).toEqual({ cost: 408, order: [0, 3, 1, 2] });
    // No book value was checked for this one: trying every permutation gives 55.
    const second = cheapestOrder(oneMachine([12, 8, 15, 9], late([16, 26, 25, 27], [4, 1, 5, 3])));
    expect(second).toEqual({ cost: 55, order: [0, 2, 3, 1] });
  });

  it("[MOD-74] Johnson 1954: two machines, 47 by 5-1-4-3-2; second instance 20.5", () => {
    const johnson = flowShop([4, 4, 30, 6, 2], [5, 1, 4, 30, 3]);
    expect(cheapestOrder(johnson)?.cost).toBe(47);
    expect(costOf(johnson, [4, 0, 3, 2, 1])).toBe(47);
    expect(cheapestOrder(flowShop([3.2, 4.7, 2.2, 5.8, 3.1], [4.2, 1.5, 5, 4, 2.8]))?.cost).toBeCloseTo(
      20.5,
      9,
    );
  });
});

describe("cheapest order", () => {
  /** Random costs by (placed, last, next), with pairs that may or may not be allowed. */
  const instance = fc.integer({ min: 1, max: 6 }).chain((n) =>
    fc.record({
      n: fc.constant(n),
      seed: fc.integer(),
      pairs: fc.array(fc.tuple(fc.nat(n - 1), fc.nat(n - 1)), { maxLength: n }),
    }),
  );
  const items = (n: number) => Array.from({ length: n }, (_, i) => i);
  const hashed = (seed: number, ...parts: number[]) => {
    let h = seed | 0;
    for (const p of parts) h = Math.imul(h ^ (p + 0x9e3779b9), 0x85ebca6b) ^ (h >>> 13);
    return (h >>> 0) % 1000;
  };

  it.each(["sum", "max"] as const)(
    "[MOD-74, MOD-75] by %s equals every permutation tried, with random precedence",
    (kind) => {
      fc.assert(
        fc.property(instance, ({ n, seed, pairs }) => {
          const sets = precedenceSets(
            items(n),
            pairs.map(([before, after]) => ({ before, after })),
          );
          const orders = permutations(n).filter((order) =>
            pairs.every(([a, b]) => order.indexOf(a) < order.indexOf(b)),
          );
          expect(sets.ok).toBe(orders.length > 0);
          if (!sets.ok) return;
          const question: Sequencing = {
            count: n,
            after: sets.value,
            step: (soFar, placed, last, next) => {
              const c = hashed(seed, placed, last ?? -1, next);
              return c > 980 ? Number.POSITIVE_INFINITY : kind === "sum" ? soFar + c : Math.max(soFar, c);
            },
          };
          for (const first of [null, ...items(n)]) {
            const costs = orders
              .filter((o) => first === null || o[0] === first)
              .map((o) => costOf(question, o));
            const least = Math.min(...costs);
            const found = cheapestOrder(question, first);
            expect(found?.cost ?? Number.POSITIVE_INFINITY).toBe(least);
            if (found) expect(costOf(question, found.order)).toBe(least);
            if (found && first !== null) expect(found.order[0]).toBe(first);
          }
        }),
        { seed: 74, numRuns: 300 },
      );
    },
  );

  it("[MOD-74] places every item once", () => {
    const best = cheapestOrder(oneMachine([3, 1, 2, 5, 4, 8, 7, 6], (_, end) => end));
    // Shortest first is the classic answer (Smith 1956).
    expect(best?.order).toEqual([1, 2, 0, 4, 3, 7, 6, 5]);
    expect(best?.order.reduce((set, i) => set | (1 << i), 0)).toBe(all(8));
  });
});

describe("precedence", () => {
  it("[MOD-75] a circle is refused and named, each member before the next", () => {
    const pairs = [
      { before: 4, after: 2 },
      { before: 2, after: 3 },
      { before: 3, after: 4 },
      { before: 1, after: 2 },
    ];
    const got = precedenceSets([1, 2, 3, 4], pairs);
    if (got.ok || !("circle" in got)) throw new Error("the circle was not found");
    expect([...got.circle].sort()).toEqual([2, 3, 4]);
    got.circle.forEach((before, i) => {
      const after = got.circle[(i + 1) % got.circle.length];
      expect(pairs).toContainEqual({ before, after });
    });
    expect(precedenceSets([1, 2], [{ before: 1, after: 1 }])).toMatchObject({ ok: false, circle: [1] });
    expect(precedenceSets([1, 2], [{ before: 1, after: 9 }]).ok).toBe(false);
  });

  it("[MOD-75] any circle named consists of the given pairs", () => {
    const pair = fc.tuple(fc.nat(5), fc.nat(5));
    fc.assert(
      fc.property(fc.array(pair, { maxLength: 12 }), (list) => {
        const pairs = list.map(([before, after]) => ({ before, after }));
        const got = precedenceSets([0, 1, 2, 3, 4, 5], pairs);
        if (got.ok || !("circle" in got)) return;
        got.circle.forEach((before, i) => {
          expect(pairs).toContainEqual({ before, after: got.circle[(i + 1) % got.circle.length] });
        });
      }),
      { seed: 75, numRuns: 300 },
    );
  });
});
