/** A question about the order of items 0 to count - 1, at most 16. Sets are bit masks: bit i is item i. */
export interface Sequencing {
  count: number;
  /** For each item the set that must come before it. */
  after: readonly number[];
  /**
   * Returns the cost so far once `next` follows `last` (null at the beginning), with the items of `placed` done before
   * it. It must not fall as `soFar` rises. Infinity: not allowed.
   */
  step(soFar: number, placed: number, last: number | null, next: number): number;
}

export interface CheapestOrder {
  order: number[];
  cost: number;
}

/**
 * Returns the exact order of least cost by dynamic programming over sets and last items (Held and Karp 1962; Lawler):
 * 2^n n states, 2^n n^2 steps. Because `step` rises with `soFar`, the cheapest way to each state is enough; sums,
 * maxima and machine-completion times all satisfy this. If `first` is given, only orders that begin with it count.
 * Among equal costs, the order that takes lower items earliest wins. Null when no order is allowed.
 */
export function cheapestOrder(question: Sequencing, first: number | null = null): CheapestOrder | null {
  const { count, after, step } = question;
  const size = 1 << count;
  const cost = new Float64Array(size * count).fill(Number.POSITIVE_INFINITY);
  const previous = new Int8Array(size * count).fill(-1);
  const allowed = (placed: number, next: number) =>
    (placed & (1 << next)) === 0 && ((after[next] ?? 0) & ~placed) === 0;

  for (let next = 0; next < count; next++) {
    if ((first === null || next === first) && allowed(0, next)) {
      cost[(1 << next) * count + next] = step(0, 0, null, next);
    }
  }
  for (let placed = 1; placed < size; placed++) {
    for (let last = 0; last < count; last++) {
      const soFar = cost[placed * count + last] ?? Number.POSITIVE_INFINITY;
      if (soFar === Number.POSITIVE_INFINITY) continue;
      for (let next = 0; next < count; next++) {
        if (!allowed(placed, next)) continue;
        const to = (placed | (1 << next)) * count + next;
        const total = step(soFar, placed, last, next);
        if (total < (cost[to] ?? Number.POSITIVE_INFINITY)) {
          cost[to] = total;
          previous[to] = last;
        }
      }
    }
  }
  return traceBack(count, cost, previous);
}

function traceBack(count: number, cost: Float64Array, previous: Int8Array): CheapestOrder | null {
  let set = (1 << count) - 1;
  let last = -1;
  let best = Number.POSITIVE_INFINITY;
  for (let item = 0; item < count; item++) {
    const total = cost[set * count + item] ?? Number.POSITIVE_INFINITY;
    if (total < best) {
      best = total;
      last = item;
    }
  }
  if (last < 0) return null;
  const order: number[] = [];
  while (last >= 0) {
    order.unshift(last);
    const before = previous[set * count + last] ?? -1;
    set &= ~(1 << last);
    last = before;
  }
  return { order, cost: best };
}
