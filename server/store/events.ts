import type { Sealed } from "../../shared/evidence/chain.ts";

/** One event as it is kept: its exact bytes, and what is looked for without reading them. */
export interface StoredEvent extends Sealed {
  /** Server milliseconds. */
  at: number;
  type: string;
  command: string | null;
}

/** What a list of sessions shows without replaying their events; written in the same transaction as they are. */
export interface SessionRow {
  id: string;
  code: string;
  planCommand: string;
  aircraft: string;
  typeId: string;
  typeVersion: number;
  typeName: string;
  place: string;
  stage: string;
  /** Open alerts, holds, cuts and fires. */
  needs: number;
  createdAt: number;
  /** Null while the session is not over. */
  closedAt: number | null;
  headSeq: number;
  headHash: string;
  headAt: number;
}

/** How far a session has come. */
export type SessionHead = Pick<SessionRow, "id" | "headSeq">;

/** What the server vouched for of a session's first `size` events. */
export interface CheckpointRecord {
  session: string;
  size: number;
  /** Server milliseconds. */
  at: number;
  /** The signed note, exactly. */
  note: string;
  /** Public key that signed it, hexadecimal. */
  publicKey: string;
}

/** That something was removed after its period, and what. */
export interface RemovalRecord {
  /** Id of the session or person. */
  id: string;
  /** Server milliseconds. */
  at: number;
  /** A signed note. */
  note: string;
  /** Public key that signed it, hexadecimal. */
  publicKey: string;
}

/** Events to add to one session, all or none. */
export interface Append {
  /** Number of the last event the appender knows; 0 begins a session. */
  expected: number;
  /** At least one, numbered from `expected + 1`. */
  events: readonly StoredEvent[];
  /** The session's row after them. */
  row: SessionRow;
}

/** Somebody else appended first: read again and decide again. */
export class ConcurrencyError extends Error {
  override readonly name = "ConcurrencyError";
  constructor(session: string, expected: number) {
    super(`session ${session} is not at event ${expected}`);
  }
}

/**
 * The store could not write or read. Nothing of the append was kept, unless the way to the store was lost with its
 * answer: who decides next reads again first.
 */
export class StoreFailure extends Error {
  override readonly name = "StoreFailure";
}

/** Where the evidence is kept. Every implementation passes `tests/store/contract.ts`. */
export interface EventStore {
  /**
   * Resolves once the events are durable.
   * @throws ConcurrencyError when the session is not at `expected`
   * @throws StoreFailure when they cannot be kept
   */
  append(append: Append): Promise<void>;
  /** At most `limit` events numbered above `since`, in order. */
  read(session: string, since: number, limit: number): Promise<StoredEvent[]>;
  session(id: string): Promise<SessionRow | null>;
  sessionByCode(code: string): Promise<SessionRow | null>;
  /** The session a plan's command id led to. */
  sessionByPlan(command: string): Promise<SessionRow | null>;
  /** The newest session of an aircraft. */
  lastSessionOf(aircraft: string): Promise<SessionRow | null>;
  /** Newest first. */
  sessions(limit: number): Promise<SessionRow[]>;
  /** Every session that is not over. */
  openSessions(): Promise<SessionRow[]>;
  /** How far each of them has come: asked often, so that a server sees what another recorded. */
  openHeads(): Promise<SessionHead[]>;
  /** Keeps a checkpoint; of two for the same size the first stays. @throws StoreFailure */
  addCheckpoint(checkpoint: CheckpointRecord): Promise<void>;
  /** A session's checkpoints, the smallest first. */
  checkpoints(session: string): Promise<CheckpointRecord[]>;
  /**
   * Removes a session that is over, its events and checkpoints, and keeps the record of it: all or nothing.
   * @throws StoreFailure when it is not over, or cannot be removed
   */
  remove(session: string, removal: RemovalRecord): Promise<void>;
  addRemoval(removal: RemovalRecord): Promise<void>;
  /** Oldest first. */
  removals(): Promise<RemovalRecord[]>;
  /** Server time of the newest event of all, 0 when there is none. */
  newestAt(): Promise<number>;
  /** Writes something without effect. @throws StoreFailure when it cannot. */
  probe(): Promise<void>;
  close(): Promise<void>;
}
