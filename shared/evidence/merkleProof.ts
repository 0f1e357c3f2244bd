import { type Hash, leftSize, nodeHash, rootOf } from "./merkle.ts";

/**
 * Returns the hashes from a leaf's neighbour up to below the root (RFC 9162 section 2.1.3.1).
 * @throws RangeError
 */
export function inclusionProof(leaves: readonly Uint8Array[], index: number, hash: Hash): Uint8Array[] {
  if (!Number.isInteger(index) || index < 0 || index >= leaves.length)
    throw new RangeError(`no leaf ${index} in a tree of ${leaves.length}`);
  const path = (from: number, to: number): Uint8Array[] => {
    if (to - from === 1) return [];
    const middle = from + leftSize(to - from);
    return index < middle
      ? [...path(from, middle), rootOf(leaves, hash, middle, to)]
      : [...path(middle, to), rootOf(leaves, hash, from, middle)];
  };
  return path(0, leaves.length);
}

/**
 * Returns the proof that the tree of the first `size` leaves grew into the whole tree (RFC 9162 section 2.1.4.1).
 * @throws RangeError
 */
export function consistencyProof(leaves: readonly Uint8Array[], size: number, hash: Hash): Uint8Array[] {
  if (!Number.isInteger(size) || size < 1 || size > leaves.length)
    throw new RangeError(`no tree of ${size} in one of ${leaves.length}`);
  const sub = (from: number, to: number, known: boolean): Uint8Array[] => {
    if (size === to) return known ? [] : [rootOf(leaves, hash, from, to)];
    const middle = from + leftSize(to - from);
    return size <= middle
      ? [...sub(from, middle, known), rootOf(leaves, hash, middle, to)]
      : [...sub(middle, to, false), rootOf(leaves, hash, from, middle)];
  };
  return sub(0, leaves.length, true);
}

/** The claim that this leaf stands at this place of the tree of this size and root. */
export interface InclusionClaim {
  leaf: Uint8Array;
  index: number;
  size: number;
  root: Uint8Array;
  proof: readonly Uint8Array[];
}

/** Returns whether the claim holds (RFC 9162 section 2.1.3.2). */
export function includes({ leaf, index, size, root, proof }: InclusionClaim, hash: Hash): boolean {
  if (!Number.isInteger(index) || index < 0 || index >= size) return false;
  let [fn, sn] = [index, size - 1];
  let found = leaf;
  for (const p of proof) {
    if (sn === 0) return false;
    if (fn % 2 === 1 || fn === sn) {
      found = nodeHash(p, found, hash);
      while (fn % 2 === 0 && fn !== 0) [fn, sn] = [half(fn), half(sn)];
    } else found = nodeHash(found, p, hash);
    [fn, sn] = [half(fn), half(sn)];
  }
  return sn === 0 && same(found, root);
}

/** The claim that the first tree grew into the second by adding leaves only. */
export interface ConsistencyClaim {
  first: { size: number; root: Uint8Array };
  second: { size: number; root: Uint8Array };
  proof: readonly Uint8Array[];
}

/** Returns whether the claim holds (RFC 9162 section 2.1.4.2). */
export function growsInto({ first, second, proof }: ConsistencyClaim, hash: Hash): boolean {
  if (first.size < 1 || first.size > second.size) return false;
  if (first.size === second.size) return proof.length === 0 && same(first.root, second.root);
  const path = isPowerOfTwo(first.size) ? [first.root, ...proof] : [...proof];
  let [fn, sn] = [first.size - 1, second.size - 1];
  while (fn % 2 === 1) [fn, sn] = [half(fn), half(sn)];
  const start = path.shift();
  if (!start) return false;
  let [fr, sr] = [start, start];
  for (const c of path) {
    if (sn === 0) return false;
    if (fn % 2 === 1 || fn === sn) {
      [fr, sr] = [nodeHash(c, fr, hash), nodeHash(c, sr, hash)];
      while (fn % 2 === 0 && fn !== 0) [fn, sn] = [half(fn), half(sn)];
    } else sr = nodeHash(sr, c, hash);
    [fn, sn] = [half(fn), half(sn)];
  }
  return sn === 0 && same(fr, first.root) && same(sr, second.root);
}

function half(n: number): number {
  return Math.floor(n / 2);
}

function isPowerOfTwo(n: number): boolean {
  return n === 1 || leftSize(n) * 2 === n;
}

export function same(a: Uint8Array, b: Uint8Array): boolean {
  return a.length === b.length && a.every((byte, i) => byte === b[i]);
}
