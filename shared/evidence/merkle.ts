// Merkle tree of RFC 9162 section 2.1: a record's events are its leaves, in order. Proofs are in `merkleProof.ts`.

/** SHA-256 of bytes. The shell brings it: Node and browsers have their own. */
export type Hash = (bytes: Uint8Array) => Uint8Array;

/** The hash of a leaf, `SHA-256(0x00 || data)`: no leaf can pass for a node. */
export function leafHash(data: Uint8Array, hash: Hash): Uint8Array {
  const bytes = new Uint8Array(1 + data.length);
  bytes.set(data, 1);
  return hash(bytes);
}

/** The hash of a node, `SHA-256(0x01 || left || right)`. */
export function nodeHash(left: Uint8Array, right: Uint8Array, hash: Hash): Uint8Array {
  const bytes = new Uint8Array(1 + left.length + right.length);
  bytes[0] = 1;
  bytes.set(left, 1);
  bytes.set(right, 1 + left.length);
  return hash(bytes);
}

/** The root over leaf hashes from `from` to before `to`; that of no leaves is the hash of nothing. */
export function rootOf(
  leaves: readonly Uint8Array[],
  hash: Hash,
  from = 0,
  to: number = leaves.length,
): Uint8Array {
  const size = to - from;
  if (size === 0) return hash(new Uint8Array());
  const [only] = size === 1 ? leaves.slice(from, to) : [];
  if (only) return only;
  const middle = from + leftSize(size);
  return nodeHash(rootOf(leaves, hash, from, middle), rootOf(leaves, hash, middle, to), hash);
}

/** The largest power of two smaller than `size`: how many leaves lie in the left part of a tree. */
export function leftSize(size: number): number {
  let k = 1;
  while (k * 2 < size) k *= 2;
  return k;
}

/** A tree that grows leaf by leaf and knows its root at every size, keeping one hash for each bit of the size. */
export class GrowingTree {
  readonly #hash: Hash;
  /** Roots of the full trees that the leaves make up, largest first. */
  readonly #full: { size: number; root: Uint8Array }[] = [];

  constructor(hash: Hash) {
    this.#hash = hash;
  }

  get size(): number {
    return this.#full.reduce((sum, { size }) => sum + size, 0);
  }

  add(data: Uint8Array): void {
    let last = { size: 1, root: leafHash(data, this.#hash) };
    for (let before = this.#full.at(-1); before?.size === last.size; before = this.#full.at(-1)) {
      this.#full.pop();
      last = { size: last.size * 2, root: nodeHash(before.root, last.root, this.#hash) };
    }
    this.#full.push(last);
  }

  root(): Uint8Array {
    const roots = this.#full.map(({ root }) => root);
    const last = roots.pop();
    if (!last) return this.#hash(new Uint8Array());
    return roots.reduceRight((right, left) => nodeHash(left, right, this.#hash), last);
  }
}
