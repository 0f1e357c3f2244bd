/** Returns a number in [0, 1), always the same for the same seed and words (FNV-1a, then the murmur3 finish). */
export function chance(seed: number, ...words: (string | number)[]): number {
  let h = (0x811c9dc5 ^ seed) >>> 0;
  for (const c of words.join("\u001f")) h = Math.imul(h ^ (c.codePointAt(0) ?? 0), 0x01000193) >>> 0;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return ((h ^ (h >>> 16)) >>> 0) / 2 ** 32;
}

/** Returns a number in [from, to), drawn by `chance`. */
export function between(from: number, to: number, seed: number, ...words: (string | number)[]): number {
  return from + (to - from) * chance(seed, ...words);
}
