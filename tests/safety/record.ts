import { rulesIn } from "../spec/ids.ts";

const ROW = /^\|\s*([A-Z]{3,4}-[A-Z]?\d+[a-z]?)\s*\|(.*)\|\s*$/gm;
const ID = /\b[A-Z]{2,4}-\d+\b/g;
/** Ids of the record's own rows, to which a cell may point too. */
const OWN = /^(LOSS|HAZ|UCA|FME|INV)-/;

export interface Row {
  id: string;
  /** Rules named anywhere in the row. */
  rules: string[];
  uncovered: boolean;
}

/** Returns the rows of a hazard record: table lines that begin with an id. */
export function rowsIn(record: string): Row[] {
  return [...record.matchAll(ROW)].map(([, id = "", rest = ""]) => ({
    id,
    rules: [...rest.matchAll(ID)].map(([rule]) => rule).filter((rule) => !OWN.test(rule)),
    uncovered: rest.includes("Not covered"),
  }));
}

/** Returns each row that names a test file in which somebody tries to get round it, with that file's path. */
export function triedIn(record: string): { id: string; file: string }[] {
  return [...record.matchAll(ROW)].flatMap(([, id = "", rest = ""]) =>
    [...rest.matchAll(/Tried in `([^`]+)`/g)].map(([, file = ""]) => ({ id, file })),
  );
}

/** Returns the faults between a hazard record and the rules it names; empty when there are none. */
export function recordFaults(record: string, specification: string): string[] {
  const rows = rowsIn(record);
  const known = new Set(rulesIn(specification));
  const ids = rows.map((r) => r.id);
  return [
    ...[...new Set(ids.filter((id, n) => ids.indexOf(id) !== n))].map((id) => `${id} is there twice`),
    ...rows.flatMap((r) => [
      ...(r.rules.length === 0 && !r.uncovered ? [`${r.id} names no rule`] : []),
      ...r.rules.filter((rule) => !known.has(rule)).map((rule) => `${r.id} names ${rule}, which is no rule`),
    ]),
  ];
}
