import { openNote, signNote } from "../../shared/evidence/note.ts";
import { noteTools } from "../evidence/note-tools.ts";
import type { EvidenceSigner } from "../evidence/signer.ts";
import { sha256 } from "../sha256.ts";
import { type Seal, type StoredType, sealedText } from "../store/stored-type.ts";

/**
 * A fault of a stored version. `unsealed`: approved without a seal. `changed`: not what was sealed, or a seal
 * that nobody signed. `otherKey`: sealed with a key that is not this server's.
 */
type SealFault = "unsealed" | "changed" | "otherKey";

/** `found`: approved before there were seals, or supplied with the program, and sealed as it was then. */
type SealedHow = "approved" | "found";

const HEAD = "chockside/type-seal";

/** Returns the lines of a seal that name its version and fix the bytes of its row. */
function fixed(row: StoredType): string {
  return [HEAD, `type ${row.id}`, `version ${row.version}`, `row ${sha256(sealedText(row))}`]
    .map((line) => `${line}\n`)
    .join("");
}

/** Returns the seal of a version: a signed note in the form of the evidence's checkpoints. */
export function sealOf(row: StoredType, how: SealedHow, signer: EvidenceSigner, now: number): Seal {
  const more = [
    `content ${sha256(row.body)}`,
    `${how} by ${row.approvedBy}`,
    `time ${new Date(now).toISOString()}`,
  ];
  const text = `${fixed(row)}${more.map((line) => `${line.replaceAll("\n", " ")}\n`).join("")}`;
  return { note: signNote(text, signer, noteTools.hash), key: signer.publicHex };
}

/**
 * Returns what is wrong with a stored version, or null.
 * @param publicHex the server's public key, hexadecimal
 */
export function sealFault(row: StoredType, publicHex: string): SealFault | null {
  if (row.seal === null) return row.status === "approved" ? "unsealed" : null;
  if (row.status !== "approved") return "changed";
  const own = openNote(row.seal.note, [bytesOf(publicHex)], noteTools);
  if (own !== null) return own.startsWith(fixed(row)) && row.seal.key === publicHex ? null : "changed";
  const other = openNote(row.seal.note, [bytesOf(row.seal.key)], noteTools);
  return other?.startsWith(fixed(row)) ? "otherKey" : "changed";
}

/**
 * Returns the version that a row claims to be: by its seal where that can be read, otherwise by its own columns. A row
 * whose id was changed is found so.
 */
export function claimed(row: StoredType): { id: string; version: number } {
  const [, id, version] =
    /^chockside\/type-seal\ntype (.+)\nversion (\d+)\n/.exec(row.seal?.note ?? "") ?? [];
  return id === undefined ? { id: row.id, version: row.version } : { id, version: Number(version) };
}

/** Returns true if the row was sealed as it was found, not by an approval. */
export const sealedAsFound = ({ seal }: StoredType): boolean => /\nfound by /.test(seal?.note ?? "");

/** Returns the 32 bytes; a key that is none verifies nothing. */
function bytesOf(hex: string): Uint8Array {
  return /^[0-9a-f]{64}$/.test(hex) ? Uint8Array.from(Buffer.from(hex, "hex")) : new Uint8Array(32);
}
