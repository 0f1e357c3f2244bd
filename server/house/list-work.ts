import type { CsvFault } from "../../shared/house/lists/csv.ts";
import type { ListChange } from "../../shared/house/lists/list.ts";
import type { PinCost } from "../auth/pin.ts";
import type { Clock } from "../clock.ts";
import type { Directory } from "../store/directory.ts";

export interface ListDeps {
  directory: Directory;
  clock: Clock;
  ids: { person(): string };
  pinCost: PinCost;
  /** Fewest characters of a new person's PIN. */
  pinLength: number;
  /** Ends every sign-in of a person who lost a post. */
  endSignIns(personId: string): Promise<void>;
}

/** A file that was judged, and what it would do. */
export interface ListWork {
  rows: ListChange[];
  faults: CsvFault[];
  /** Ids of the people who would lose a post. */
  losing: string[];
  /** Does all of it or nothing. */
  write(): Promise<void>;
}

/** Returns the work of a file that does nothing, because of these faults. */
export const nothing = (faults: CsvFault[]): ListWork => ({
  ...{ rows: [], faults, losing: [] },
  write: async () => undefined,
});
