import type { WrittenKind } from "../../shared/history/written/written.ts";

/** Place of an entry in the order of answers. */
export interface Position {
  at: number;
  session: string;
  seq: number;
  part: number;
}

/** One writing as the index holds it. */
export interface IndexEntry extends Position {
  aircraft: string;
  kind: WrittenKind;
  /** Words by which it is found: letters and digits, or `_` and a digest for a person. */
  tokens: string[];
  /** The writing as JSON, with people as the sealed record names them. */
  body: string;
}

/** An entry must have a word that begins so, or one of these tokens. */
export interface Term {
  prefix: string;
  or: readonly string[];
}

/** The entries that are asked for. */
export interface Wanted {
  /** All of them must be met. */
  terms: readonly Term[];
  aircraft: string | null;
  kind: WrittenKind | null;
  /** Server milliseconds: from this moment on, and before that one. */
  from: number | null;
  to: number | null;
  /** Only what comes after this entry in the order of answers. */
  before: Position | null;
  limit: number;
}

/** The starts of a session that is over, as they were worked out from its events. */
export interface KeptStarts {
  session: string;
  /** Hash of the last event that they were worked out from. */
  headHash: string;
  /** JSON, with people as the sealed record names them. */
  body: string;
}

/**
 * Version of what the index holds: raise it when the same events give other entries or other starts. An index of
 * another version is thrown away and built again.
 */
export const INDEX_FORM = 2;

/**
 * An index of everything written in the records, and of the starts of the sessions that are over. It holds nothing that
 * the sealed events do not hold, and can be thrown away at any time. Every implementation passes
 * `tests/store/contract-index.ts`.
 */
export interface SearchIndex {
  /** Returns the number of the last event that is indexed of each session or record; only of `ids` where given. */
  heads(ids?: readonly string[]): Promise<Map<string, number>>;
  /**
   * Adds what the events of a session after `from` to `head` hold. Adds nothing when the index is not at `from`:
   * another server was first.
   */
  put(session: string, from: number, head: number, entries: readonly IndexEntry[]): Promise<void>;
  /** Removes everything of a session. */
  forget(session: string): Promise<void>;
  /** Returns the entries that were asked for, the newest first; in the order of their ids where the time is the same. */
  find(wanted: Wanted): Promise<IndexEntry[]>;
  /** Keeps the starts of a session in place of those that were kept of it. */
  keepStarts(kept: KeptStarts): Promise<void>;
  /** Returns what is kept of these sessions, in any order. */
  startsOf(sessions: readonly string[]): Promise<KeptStarts[]>;
  /** Returns the hash of the last event of each session whose starts are kept; only of `ids` where given. */
  startHeads(ids?: readonly string[]): Promise<Map<string, string>>;
  close(): Promise<void>;
}
