import { canonical } from "./canonical.ts";
import type { Digest } from "./chain.ts";
import { openCheckpoint } from "./checkpoint.ts";
import { GrowingTree } from "./merkle.ts";
import { same } from "./merkleProof.ts";
import { fromHex, type NoteTools, openNote, type Signer, signNote, toHex, utf8 } from "./note.ts";
import { pseudonymOf } from "./pseudonyms.ts";
import type { SignedManifest } from "./verify.ts";

const END = "chockside/export";

/**
 * Returns the last line of a signed export: a note over the SHA-256 of all bytes before it. So no byte of the file can
 * change unnoticed, the caution included.
 */
export function endLine(before: Uint8Array, signer: Signer, tools: Pick<NoteTools, "hash">): string {
  return canonical({ end: signNote(`${END}\n${toHex(before)}\n`, signer, tools.hash) });
}

/** Returns the fault of an export's last line; null when it signs the bytes before it. `before` is their SHA-256. */
export function faultOfEnd(
  line: string,
  before: Uint8Array,
  keys: readonly Uint8Array[],
  tools: NoteTools,
): string | null {
  let end: unknown;
  try {
    end = JSON.parse(line).end;
  } catch {
    return "the export does not end with its signature: its tail was cut off";
  }
  if (typeof end !== "string") return "the export does not end with its signature: its tail was cut off";
  if (canonical({ end }) !== line) return "not the canonical bytes";
  const text = openNote(end, keys, tools);
  if (text === null) return "its signature is not of the key the manifest names";
  return text === `${END}\n${toHex(before)}\n` ? null : "the file is not the one that was signed";
}

/**
 * Returns the fault of the manifest's names; null when each is the sealed one, that is, its digest stands in the bytes.
 */
export function faultOfNames({ names }: SignedManifest, digest: Digest): string | null {
  const wrong = Object.entries(names).find(
    ([pseudonym, opening]) => pseudonymOf(opening, digest) !== pseudonym,
  );
  return wrong ? `${wrong[1].name} is not the name that was sealed` : null;
}

export type CheckpointFault = { line: number; why: string };

/**
 * Returns the fault of the checkpoints of a record whose chain is whole, or null. Each checkpoint must be signed,
 * belong to this session, and have the root of the record's own first lines, so that it continues the ones before it.
 * @param noted checkpoints that were kept elsewhere: the record must continue them too
 */
export function faultOfCheckpoints(
  lines: readonly string[],
  manifest: SignedManifest,
  noted: readonly string[],
  tools: NoteTools,
): CheckpointFault | null {
  const keys = manifest.keys.map(fromHex);
  const notes = [
    ...manifest.checkpoints.map((note) => ({ note, name: "a checkpoint of the manifest" })),
    ...noted.map((note) => ({ note, name: "the checkpoint kept elsewhere" })),
  ];
  const opened = notes.map(({ note, name }) => ({ name, checkpoint: openCheckpoint(note, keys, tools) }));
  const roots = rootsAt(new Set(opened.map((o) => o.checkpoint?.size ?? 0)), lines, tools);
  for (const { name, checkpoint } of opened) {
    if (!checkpoint) return { line: 0, why: `${name} is not signed by a key the manifest names` };
    const { session, size, root, at } = checkpoint;
    if (session !== manifest.session) return { line: 0, why: `${name} is of session ${session}` };
    const due = roots.get(size);
    if (!due) return { line: lines.length + 1, why: `${name} is of ${size} events: lines are missing` };
    if (!same(due, root)) {
      const when = new Date(at).toISOString();
      return { line: size, why: `up to here it is not what was signed at ${when} (${name})` };
    }
  }
  const last = opened[manifest.checkpoints.length - 1]?.checkpoint;
  return last?.size === manifest.events ? null : { line: 0, why: "no checkpoint is of the whole record" };
}

/** Returns the record's roots at these sizes, as far as the record reaches. */
function rootsAt(
  sizes: ReadonlySet<number>,
  lines: readonly string[],
  { hash }: NoteTools,
): Map<number, Uint8Array> {
  const tree = new GrowingTree(hash);
  const roots = new Map<number, Uint8Array>();
  for (const [i, line] of lines.entries()) {
    tree.add(utf8(line));
    if (sizes.has(i + 1)) roots.set(i + 1, tree.root());
  }
  return roots;
}
