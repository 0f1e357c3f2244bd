import type { Sealed } from "../../shared/evidence/chain.ts";

import type { Moved } from "./moves.ts";

/** A stored event: its exact bytes, and columns to search by. */
export interface StoredEvent extends Sealed {
  /** Server milliseconds. */
  at: number;
  type: string;
  command: string | null;
}

/** Stage of the row of an aircraft's own record. It stands among the sessions' rows, and in none of their lists. */
export const RECORD_STAGE = "record";

/** A session's row, for lists that do not replay events. Written in the same transaction as the events. */
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
  /** Null while the session is open. */
  closedAt: number | null;
  headSeq: number;
  headHash: string;
  headAt: number;
}

/** A session and the number of its last event. */
export type SessionHead = Pick<SessionRow, "id" | "headSeq">;

/** A signed checkpoint of a session's first `size` events. */
export interface CheckpointRecord {
  session: string;
  size: number;
  /** Server milliseconds. */
  at: number;
  /** The exact signed note. */
  note: string;
  /** Public key that signed it, hexadecimal. */
  publicKey: string;
}

/** The record of a removal after the retention period. */
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
  /** Number of the last event the caller knows; 0 begins a session. */
  expected: number;
  /** At least one, numbered from `expected + 1`. */
  events: readonly StoredEvent[];
  /** The session's row after them. */
  row: SessionRow;
}

/** Another append came first: read again and decide again. */
export class ConcurrencyError extends Error {
  override readonly name = "ConcurrencyError";
  constructor(session: string, expected: number) {
    super(`session ${session} is not at event ${expected}`);
  }
}

/**
 * The database could not write or read. A failed append was not stored, except possibly when the connection was lost
 * before the answer: read again before the next decision.
 */
export class StoreFailure extends Error {
  override readonly name = "StoreFailure";
}

/** Stores the evidence. Every implementation passes `tests/store/contract.ts`. */
export interface EventStore {
  /**
   * Resolves once the events are durable.
   * @throws ConcurrencyError when the session is not at `expected`
   * @throws StoreFailure when they cannot be stored
   */
  append(append: Append): Promise<void>;
  /** Returns at most `limit` events numbered above `since`, in order. */
  read(session: string, since: number, limit: number): Promise<StoredEvent[]>;
  /** Returns the events that a command led to, in order. */
  ofCommand(session: string, command: string): Promise<StoredEvent[]>;
  session(id: string): Promise<SessionRow | null>;
  sessionByCode(code: string): Promise<SessionRow | null>;
  /** Returns the session that a plan's command id created. */
  sessionByPlan(command: string): Promise<SessionRow | null>;
  /** Returns the newest session of an aircraft. */
  lastSessionOf(aircraft: string): Promise<SessionRow | null>;
  /**
   * Returns starts and returns without rehearsals, newest first: by the time of the plan, and by id where that is the
   * same. `before`: those after it in this order.
   */
  sessions(limit: number, before?: Pick<SessionRow, "createdAt" | "id">): Promise<SessionRow[]>;
  /** Returns rehearsals in the same way. */
  rehearsals(limit: number, before?: Pick<SessionRow, "createdAt" | "id">): Promise<SessionRow[]>;
  /** Returns the row of every aircraft's own record, by id. */
  records(): Promise<SessionRow[]>;
  /**
   * Returns starts and returns of an aircraft without rehearsals, in the same order.
   */
  sessionsOf(aircraft: string, limit: number): Promise<SessionRow[]>;
  /**
   * Returns the heads that moved since a mark, of starts, returns, rehearsals and the aircraft's own records; all heads
   * where that is not known. What moved before the mark may be among them.
   * @param mark of an earlier answer; null for all
   */
  moved(mark: string | null): Promise<Moved>;
  /** Returns every open session. */
  openSessions(): Promise<SessionRow[]>;
  /** Returns the heads of all open sessions. Called often, to see what other servers recorded. */
  openHeads(): Promise<SessionHead[]>;
  /**
   * Stores a checkpoint, unless one of the same size exists.
   * @throws StoreFailure
   */
  addCheckpoint(checkpoint: CheckpointRecord): Promise<void>;
  /** Returns a session's checkpoints, the smallest first. */
  checkpoints(session: string): Promise<CheckpointRecord[]>;
  /**
   * Removes a closed session with its events and checkpoints, and stores the record of the removal: all or nothing.
   * @throws StoreFailure when it is open, or cannot be removed
   */
  remove(session: string, removal: RemovalRecord): Promise<void>;
  addRemoval(removal: RemovalRecord): Promise<void>;
  /** Oldest first. */
  removals(): Promise<RemovalRecord[]>;
  /** Returns the server time of the newest event; 0 when there is none. */
  newestAt(): Promise<number>;
  /**
   * Writes a value without effect.
   * @throws StoreFailure when it cannot
   */
  probe(): Promise<void>;
  close(): Promise<void>;
}
