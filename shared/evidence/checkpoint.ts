import type { Hash } from "./merkle.ts";
import { fromBase64, type NoteTools, openNote, type Signer, signNote, toBase64 } from "./note.ts";

/** The server's statement that at this time the session's record had this many events and this Merkle root. */
export interface Checkpoint {
  session: string;
  /** Number of events: the tree's leaves are their exact bytes. */
  size: number;
  root: Uint8Array;
  /** Server milliseconds. */
  at: number;
}

const ORIGIN = "chockside/session/";
const TIME = "time ";

/**
 * Returns the checkpoint as C2SP tlog-checkpoint writes it: a signed note of origin, size and root, with the time as an
 * extension line. Each session is a log of its own. One key signs for all sessions, so the key's name is not the
 * origin.
 */
export function signCheckpoint({ session, size, root, at }: Checkpoint, signer: Signer, hash: Hash): string {
  const time = new Date(at).toISOString();
  return signNote(`${ORIGIN}${session}\n${size}\n${toBase64(root)}\n${TIME}${time}\n`, signer, hash);
}

/** Returns the checkpoint in a note; null unless one of the keys signed it and it has the form above. */
export function openCheckpoint(
  note: string,
  keys: readonly Uint8Array[],
  tools: NoteTools,
): Checkpoint | null {
  const lines = openNote(note, keys, tools)?.split("\n");
  if (lines?.length !== 5) return null;
  const [origin = "", size = "", root = "", time = ""] = lines;
  const bytes = fromBase64(root);
  const at = Date.parse(time.slice(TIME.length));
  if (!origin.startsWith(ORIGIN) || !/^[1-9]\d*$/.test(size) || bytes?.length !== 32) return null;
  if (!time.startsWith(TIME) || Number.isNaN(at)) return null;
  return { session: origin.slice(ORIGIN.length), size: Number(size), root: bytes, at };
}
