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

/** What the first event of a session chains to. */
export function genesis(session: string, digest: Digest): string {
  return digest(`chockside session ${session}`);
}

/** Seals one event onto the chain: `prev` is the hash of the event before, or the session's genesis. */
export function seal(event: SessionEvent, prev: string, digest: Digest): Sealed {
  const body = canonical({ ...event, prev });
  return { seq: event.seq, body, hash: digest(body) };
}
