import type { StartAt } from "../../shared/house/starts.ts";

/** The last day on which a person's currency of one kind holds. */
export interface CurrencyDate {
  personId: string;
  /** Id of the kind in the register. */
  kind: string;
  /** Such as 2027-03-31. */
  until: string;
}

/** People's dates in the house's currencies. Every method rejects when the database fails. */
export interface CurrencyStore {
  dates(): Promise<CurrencyDate[]>;
  /** Replaces all dates of one person, or none. */
  setDates(personId: string, dates: Readonly<Record<string, string>>): Promise<void>;
  lastStarts(): Promise<StartAt[]>;
  /** Keeps each start that is later than the one known: all of them or none. */
  noteStarts(starts: readonly StartAt[]): Promise<void>;
}
