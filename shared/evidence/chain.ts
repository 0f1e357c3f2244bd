import type { SessionEvent } from "../protocol/events.ts";
import type { RecordEvent } from "../protocol/recordEvents.ts";
import { canonical } from "./canonical.ts";

/**
 * Returns the SHA-256 of the text's UTF-8 bytes, lower-case hex. The caller supplies it, because Node and browsers each
 * have their own.
 */
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
export function seal(event: SessionEvent | RecordEvent, prev: string, digest: Digest): Sealed {
  const body = canonical({ ...event, prev });
  return { seq: event.seq, body, hash: digest(body) };
}

/** The last line of a chain that was checked: its number and hash. Before the first line: 0 and the genesis. */
export type ChainEnd = Pick<Sealed, "seq" | "hash">;

/**
 * Returns whether a stored line is the next one of its session's chain, without parsing it. The line must hold the hash
 * of the line before, in that member's place, and must have the hash that is stored beside it. This is cheap enough for
 * a whole database; `verify` checks the meaning of the lines.
 */
export function followsOn(session: string, last: ChainEnd, line: Sealed, digest: Digest): boolean {
  const seq = last.seq + 1;
  return line.seq === seq && isChained(line.body, last.hash, seq, session) && digest(line.body) === line.hash;
}

/** Checks the last members of the canonical form. Its keys are sorted, so these members can stand nowhere else. */
function isChained(body: string, prev: string, seq: number, session: string): boolean {
  const version = body.lastIndexOf(',"v":');
  const before = `,"prev":"${prev}","seq":${seq},"session":"${session}"`;
  return body.startsWith(before, version - before.length) && /^,"v":\d+\}$/.test(body.slice(version));
}
