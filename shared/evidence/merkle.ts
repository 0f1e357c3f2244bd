// Merkle tree of RFC 9162 section 2.1. The leaves are the events of a record, in order. `merkleProof.ts` holds the
// proofs.

/** Returns the SHA-256 of bytes. The caller supplies it, because Node and browsers each have their own. */
export type Hash = (bytes: Uint8Array) => Uint8Array;

/** Returns the hash of a leaf, `SHA-256(0x00 || data)`. The prefix keeps a leaf from passing for a node. */
export function leafHash(data: Uint8Array, hash: Hash): Uint8Array {
  const bytes = new Uint8Array(1 + data.length);
  bytes.set(data, 1);
  return hash(bytes);
}

/** Returns the hash of a node, `SHA-256(0x01 || left || right)`. */
export function nodeHash(left: Uint8Array, right: Uint8Array, hash: Hash): Uint8Array {
  const bytes = new Uint8Array(1 + left.length + right.length);
  bytes[0] = 1;
  bytes.set(left, 1);
  bytes.set(right, 1 + left.length);
  return hash(bytes);
}

/** Returns the root over the leaf hashes from `from` to before `to`; for no leaves, the hash of no bytes. */
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

/** Returns the largest power of two smaller than `size`: the number of leaves in the left part of a tree. */
export function leftSize(size: number): number {
  let k = 1;
  while (k * 2 < size) k *= 2;
  return k;
}

/** A tree that grows leaf by leaf and gives its root at every size. It keeps one hash for each bit of the size. */
export class GrowingTree {
  readonly #hash: Hash;
  /** Roots of the full subtrees, largest first. */
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
