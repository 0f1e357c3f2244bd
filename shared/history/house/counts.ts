/** Returns the items of each key, in the order in which the keys came first. */
export function grouped<T, K>(items: readonly T[], keyOf: (item: T) => K): [K, T[]][] {
  const groups = new Map<K, T[]>();
  for (const item of items) {
    const key = keyOf(item);
    const group = groups.get(key);
    if (group) group.push(item);
    else groups.set(key, [item]);
  }
  return [...groups];
}

/** Returns the list with the largest first; those alike stay in their order. */
export const largestFirst = <T>(list: readonly T[], sizeOf: (item: T) => number): T[] =>
  [...list].sort((a, b) => sizeOf(b) - sizeOf(a));

export const summed = <T>(items: readonly T[], amountOf: (item: T) => number): number =>
  items.reduce((sum, item) => sum + amountOf(item), 0);
