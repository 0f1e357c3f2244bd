import type { EngineHistory, Item, LastReported, StandingItem } from "../protocol/standing.ts";

/**
 * The things that stand at one aircraft across its sessions. Plain JSON; it changes through `evolveRecord` alone. A
 * session's state is the truth about that session; this record is the truth about everything that outlives it.
 */
export interface AircraftRecord {
  v: 1;
  /** Id of the record's stream of events. */
  id: string;
  seq: number;
  at: number;
  aircraft: string;
  items: StandingItem[];
  /** Number the next item gets. Numbers are never used again. */
  nextNo: number;
  /**
   * Items of sessions still open that were ended elsewhere. Such a session must be told, and may not add them again.
   */
  endedElsewhere: { session: string; item: Item }[];
  engines: EngineHistory[];
  lastReported: LastReported;
  /** Sessions that are not over, and the number of the last event each contributed. */
  open: Record<string, number>;
}

export const NOTHING_REPORTED: LastReported = { chocks: null, brakes: null, groundPower: null };

/** Returns true for an item about a propeller that turns or that nobody has seen still. */
export function isOfPropeller(item: Item): item is Extract<Item, { is: "turning" | "unseen" }> {
  return item.is === "turning" || item.is === "unseen";
}

/**
 * Returns the key that identifies what a session or a supervisor reported: two items with the same key are the same
 * thing.
 */
export function keyOf(item: Item): string {
  return `${item.is}:${isOfPropeller(item) ? item.engine : item.ref}`;
}
