import type { SessionEvent } from "../protocol/events.ts";
import { canonical } from "./canonical.ts";

/** SHA-256 of the text's UTF-8 bytes, as lower-case hex. The shell brings it: Node and browsers have their own. */
export type Digest = (text: string) => string;

/** An event as stored and exported: its exact bytes, which hold the hash of the event before. */
export interface Sealed {
  seq: number;
  body: string;
  hash: string;
}

/** Returns the hash that the first event of a session chains to. */
export function genesis(session: string, digest: Digest): string {
  return digest(`chockside session ${session}`);
}

/** Seals one event onto the chain: `prev` is the hash of the event before, or the session's genesis. */
export function seal(event: SessionEvent, prev: string, digest: Digest): Sealed {
  const body = canonical({ ...event, prev });
  return { seq: event.seq, body, hash: digest(body) };
}

/** The last line of a chain that was checked: its number and hash; 0 and the genesis before the first. */
export type Link = Pick<Sealed, "seq" | "hash">;

/**
 * Whether a stored line is the next of its session's chain, told without reading what it says: it must hold the hash of
 * the line before, in its place among the members, and give the hash kept beside it. Cheap enough for a whole database;
 * what the lines mean is `verify`'s to check.
 */
export function followsOn(session: string, last: Link, line: Sealed, digest: Digest): boolean {
  const seq = last.seq + 1;
  return line.seq === seq && isChained(line.body, last.hash, seq, session) && digest(line.body) === line.hash;
}

/** The last members of the canonical form, whose keys are sorted: in a text of JSON they can stand nowhere else. */
function isChained(body: string, prev: string, seq: number, session: string): boolean {
  const version = body.lastIndexOf(',"v":');
  const before = `,"prev":"${prev}","seq":${seq},"session":"${session}"`;
  return body.startsWith(before, version - before.length) && /^,"v":\d+\}$/.test(body.slice(version));
}
