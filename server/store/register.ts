import type { RegisterEntry, RegisterKind } from "../../shared/house/register.ts";

/** That a person entered something. */
export type EntryMade = Pick<RegisterEntry, "kind" | "id" | "revision" | "at">;

/** The house's register. Entries are only ever added. Every method rejects when the database fails. */
export interface RegisterStore {
  /** The newest entry of each, by id. */
  all<K extends RegisterKind>(kind: K): Promise<RegisterEntry<K>[]>;
  /** The newest entry of one; null when there is none. */
  one<K extends RegisterKind>(kind: K, id: string): Promise<RegisterEntry<K> | null>;
  /** The last `most` entries of one, the newest first. */
  history<K extends RegisterKind>(kind: K, id: string, most: number): Promise<RegisterEntry<K>[]>;
  /** The entries that one person made, the oldest first, without their contents. */
  madeBy(person: string): Promise<EntryMade[]>;
  /**
   * Adds all the entries or none. Returns false when one of these revisions is there already: somebody else made a
   * change first.
   */
  append(entries: readonly RegisterEntry[]): Promise<boolean>;
}
