import type { Post } from "../../shared/protocol/posts.ts";

/** The last day on which a person's currency of one kind holds. */
export interface CurrencyDate {
  personId: string;
  /** Id of the kind in the register. */
  kind: string;
  /** Such as 2027-03-31. */
  until: string;
}

/** A person's last start at a post, server milliseconds. */
export interface LastStart {
  personId: string;
  post: Post;
  at: number;
}

/** People's dates in the house's currencies. Every method rejects when the database fails. */
export interface CurrencyStore {
  dates(): Promise<CurrencyDate[]>;
  /** Replaces all dates of one person, or none. */
  setDates(personId: string, dates: Readonly<Record<string, string>>): Promise<void>;
  lastStarts(): Promise<LastStart[]>;
  /** Keeps each start that is later than the one known. */
  noteStarts(starts: readonly LastStart[]): Promise<void>;
}
