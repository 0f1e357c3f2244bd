import type { z } from "zod";
import type { EntryFault } from "../../shared/house/faults.ts";
import type { CsvFault } from "../../shared/house/lists/csv.ts";
import { cellsChanged, type ListChange } from "../../shared/house/lists/list.ts";
import type { RegisterEntry, Registered, RegisterKind } from "../../shared/house/register.ts";
import { faultsOf } from "../../shared/types/faultWords.ts";
import type { Clock } from "../clock.ts";
import type { Directory } from "../store/directory.ts";
import type { By } from "./entries.ts";
import type { ListWork } from "./list-work.ts";
import { HouseRefused } from "./refused.ts";

type Cells = Readonly<Record<string, string>>;

/** A line of a list of the register, read and in order by itself. */
export interface Taken<K extends RegisterKind> {
  line: number;
  /** The entry as it stands; undefined for a new one. */
  was: RegisterEntry<K> | undefined;
  body: Registered<K>;
}

/** Returns what was entered on a line, or its faults by column. */
export function bodyOn<T>(
  line: number,
  parsed: z.ZodSafeParseResult<T>,
  columnOf: (path: string) => string | null,
): { body: T } | { faults: CsvFault[] } {
  if (parsed.success) return { body: parsed.data };
  return {
    faults: faultsOf(parsed.error.issues).map(({ path, message }) => ({
      ...{ line, column: columnOf(path), message },
    })),
  };
}

/** Returns faults of an entry as faults of its line. */
export const onLine = (
  line: number,
  faults: readonly EntryFault[],
  columnOf: (path: string) => string | null,
): CsvFault[] => faults.map(({ path, message }) => ({ line, column: columnOf(path), message }));

/** Returns the work of lines of which every one was read: one entry for each that is new or differs. */
export function registerWork<K extends RegisterKind>(
  kind: K,
  { directory, clock }: { directory: Directory; clock: Clock },
  by: By,
  taken: readonly Taken<K>[],
  faults: CsvFault[],
  cellsOf: (body: Registered<K>) => Cells,
): ListWork {
  const rows = taken.map(({ line, was, body }): ListChange => {
    const cells = cellsChanged(was ? cellsOf(was.body) : {}, cellsOf(body));
    const is = was ? (cells.length > 0 ? "changed" : "same") : "added";
    return { line, id: body.id, is, cells };
  });
  const write = async () => {
    const at = clock.now();
    const entries = taken.flatMap(({ was, body }, i): RegisterEntry<K>[] =>
      rows[i]?.is === "same"
        ? []
        : [
            {
              ...{ kind, id: body.id, revision: (was?.revision ?? 0) + 1 },
              ...{ at, by: by.id, reason: null, body },
            },
          ],
    );
    if (entries.length > 0 && !(await directory.register.append(entries)))
      throw new HouseRefused("stale", "The house was changed meanwhile: look at the file again");
  };
  return { rows, faults, losing: [], write };
}
