import { readFileSync } from "node:fs";
import { describe, expect, it } from "vitest";
import { noteTools } from "../../server/evidence/note-tools.ts";
import { GrowingTree, leafHash, rootOf } from "../../shared/evidence/merkle.ts";
import { consistencyProof, growsInto, includes, inclusionProof } from "../../shared/evidence/merkleProof.ts";
import { fromHex, toHex } from "../../shared/evidence/note.ts";
import { signerFrom } from "../http/test-signer.ts";

const read = (name: string) =>
  JSON.parse(readFileSync(new URL(`../spec/vectors/${name}.json`, import.meta.url), "utf8"));
interface Merkle {
  leaves: string[];
  roots: string[];
  inclusion: { index: number; size: number; proof: string[] }[];
  consistency: { old: number; size: number; proof: string[] }[];
}
const vectors: Merkle = read("merkle");
const { hash } = noteTools;
const leaves = vectors.leaves.map((data) => leafHash(fromHex(data), hash));
const root = (size: number) => fromHex(vectors.roots[size] ?? "");

describe("Merkle tree (RFC 9162 section 2.1, with the vectors of certificate-transparency)", () => {
  it.each(vectors.roots.map((text, size) => [size, text] as const))(
    "[CHP-1] the root over %i leaves",
    (size, text) => {
      expect(toHex(rootOf(leaves.slice(0, size), hash))).toBe(text);
      const tree = new GrowingTree(hash);
      for (const data of vectors.leaves.slice(0, size)) tree.add(fromHex(data));
      expect([tree.size, toHex(tree.root())]).toEqual([size, text]);
    },
  );

  it.each(vectors.inclusion)("[CHP-2] inclusion of leaf $index in $size", ({ index, size, proof }) => {
    const own = inclusionProof(leaves.slice(0, size), index, hash);
    expect(own.map(toHex)).toEqual(proof);
    const leaf = leaves[index] as Uint8Array;
    expect(includes({ leaf, index, size, root: root(size), proof: own }, hash)).toBe(true);
  });

  it.each(vectors.consistency)("[CHP-2] consistency of $old with $size", ({ old: from, size: to, proof }) => {
    const own = consistencyProof(leaves.slice(0, to), from, hash);
    expect(own.map(toHex)).toEqual(proof);
    const claim = {
      first: { size: from, root: root(from) },
      second: { size: to, root: root(to) },
      proof: own,
    };
    expect(growsInto(claim, hash)).toBe(true);
  });

  const many = Array.from({ length: 40 }, (_, i) => leafHash(Uint8Array.of(i), hash));
  const rootAt = (size: number) => rootOf(many.slice(0, size), hash);

  it("[CHP-2] every leaf of every tree up to 40 is proved at its own place only", () => {
    for (let size = 1; size <= many.length; size += 1)
      for (let index = 0; index < size; index += 1) {
        const proof = inclusionProof(many.slice(0, size), index, hash);
        const claim = { leaf: many[index] as Uint8Array, index, size, root: rootAt(size), proof };
        expect(includes(claim, hash)).toBe(true);
        expect(includes({ ...claim, index: (index + 1) % size }, hash)).toBe(size === 1);
        expect(includes({ ...claim, leaf: leafHash(Uint8Array.of(99), hash) }, hash)).toBe(false);
        expect(includes({ ...claim, proof: [...proof, root(1)] }, hash)).toBe(false);
        if (proof.length > 0) expect(includes({ ...claim, proof: proof.slice(1) }, hash)).toBe(false);
        expect(includes({ ...claim, index: size }, hash)).toBe(false);
      }
  });

  it("[CHP-2] every tree up to 40 is proved to grow into every larger one, and into no other", () => {
    for (let to = 1; to <= many.length; to += 1)
      for (let from = 1; from <= to; from += 1) {
        const proof = consistencyProof(many.slice(0, to), from, hash);
        const [first, second] = [
          { size: from, root: rootAt(from) },
          { size: to, root: rootAt(to) },
        ];
        expect(growsInto({ first, second, proof }, hash)).toBe(true);
        expect(growsInto({ first: { ...first, root: root(8) }, second, proof }, hash)).toBe(false);
        expect(growsInto({ first, second: { ...second, root: root(8) }, proof }, hash)).toBe(false);
        expect(growsInto({ first, second, proof: [...proof, root(1)] }, hash)).toBe(false);
        if (proof.length > 0) expect(growsInto({ first, second, proof: proof.slice(1) }, hash)).toBe(false);
        if (from < to) expect(growsInto({ first: second, second: first, proof }, hash)).toBe(false);
      }
  });

  it("[CHP-2] there is no proof of a missing leaf", () => {
    expect(() => inclusionProof(many, 40, hash)).toThrow(RangeError);
    expect(() => inclusionProof(many, -1, hash)).toThrow(RangeError);
    expect(() => consistencyProof(many, 0, hash)).toThrow(RangeError);
    expect(() => consistencyProof(many, 41, hash)).toThrow(RangeError);
  });
});

describe("Ed25519", () => {
  it.each(read("ed25519").vectors as { seed: string; pk: string; msg: string; sig: string }[])(
    "[CHP-3] RFC 8032 section 7.1, the vector of key $pk",
    ({ seed, pk, msg, sig }) => {
      const signer = signerFrom(seed);
      expect(signer.publicHex).toBe(pk);
      expect(toHex(signer.sign(fromHex(msg)))).toBe(sig);
      expect(noteTools.checkSignature(fromHex(pk), fromHex(msg), fromHex(sig))).toBe(true);
      expect(noteTools.checkSignature(fromHex(pk), fromHex(`${msg}00`), fromHex(sig))).toBe(false);
    },
  );
});
