import { createHash, createPublicKey, verify } from "node:crypto";
import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { noteTools } from "../../server/evidence/note-tools.ts";
import { sha256 } from "../../server/sha256.ts";
import { genesis } from "../../shared/evidence/chain.ts";
import { openCheckpoint } from "../../shared/evidence/checkpoint.ts";
import { fromHex, toHex } from "../../shared/evidence/note.ts";
import { pseudonymOf } from "../../shared/evidence/pseudonyms.ts";
import { faultOfEnd } from "../../shared/evidence/signedExport.ts";

const PAGE = readFileSync(new URL("../../server/EVIDENCE.md", import.meta.url), "utf8");
const V = JSON.parse(/```json\n([\s\S]*?)```/.exec(PAGE)?.[1] ?? "null");
const hash = (...parts: (string | Uint8Array)[]) => {
  const digest = createHash("sha256");
  for (const part of parts) digest.update(part);
  return digest.digest();
};

it("[EVD-7] the page's vectors follow from its own words, by Node's cryptography alone", () => {
  expect(hash(`chockside session ${V.session}`).toString("hex")).toBe(V.firstPrev);
  expect(`person:${hash(`chockside name ${V.salt} ${V.name}`).toString("hex")}`).toBe(V.pseudonym);
  const [a, b, c] = (V.leaves as string[]).map((leaf) => hash(Buffer.from([0]), leaf));
  const one = Buffer.from([1]);
  const root = hash(one, hash(one, a as Buffer, b as Buffer), c as Buffer);
  expect(root.toString("hex")).toBe(V.root);
  const key = createPublicKey({
    key: Buffer.concat([Buffer.from("302a300506032b6570032100", "hex"), Buffer.from(V.publicKey, "hex")]),
    format: "der",
    type: "spki",
  });
  const id = hash("chockside\n", one, Buffer.from(V.publicKey, "hex")).subarray(0, 4);
  for (const note of [V.checkpoint, JSON.parse(V.endLine).end] as string[]) {
    const [, text = "", letters = ""] = /^([\s\S]*\n)\n— chockside (.*)\n$/.exec(note) ?? [];
    const bytes = Buffer.from(letters, "base64");
    expect(bytes.subarray(0, 4)).toEqual(id);
    expect(verify(null, Buffer.from(text, "utf8"), key, bytes.subarray(4))).toBe(true);
  }
  expect(V.checkpoint).toContain(`\n3\n${root.toString("base64")}\n`);
  expect(V.endLine).toContain(hash(V.before).toString("hex"));
});

it("[EVD-7] the program gives the same values", () => {
  expect(genesis(V.session, sha256)).toBe(V.firstPrev);
  expect(pseudonymOf(V, sha256)).toBe(V.pseudonym);
  const opened = openCheckpoint(V.checkpoint, [fromHex(V.publicKey)], noteTools);
  expect(opened && [opened.session, opened.size, toHex(opened.root)]).toEqual([V.session, 3, V.root]);
  const before = createHash("sha256").update(V.before).digest();
  expect(faultOfEnd(V.endLine, before, [fromHex(V.publicKey)], noteTools)).toBeNull();
});
