import { pluralsOf } from "../../../shared/words/plural.ts";

const plural = pluralsOf("en");

/** The house's people, aircraft and equipment as files. */
export const lists = {
  title: "Lists as files",
  lead: "CSV files for a spreadsheet. A file is looked at first: nothing changes before you say so, and then all of it or nothing. What a file does not name stays.",
  kinds: { people: "People", aircraft: "Aircraft", equipment: "Equipment" },
  save: "Save as a file",
  saveOf: (list: string) => `Save as a file: ${list}`,
  read: "Read a file",
  readOf: (list: string) => `Read a file: ${list}`,
  faulty: (n: number) =>
    `${n} ${plural(n, { one: "fault", other: "faults" })}. Mend the file and read it again. Nothing was changed.`,
  place: (line: number, column: string | null) =>
    column === null ? `Line ${line}` : `Line ${line}, ${column}`,
  would: (changes: number, same: number) =>
    `${changes} ${plural(changes, { one: "line", other: "lines" })} would change something, ${same} would not.`,
  added: (line: number) => `is new (line ${line})`,
  changed: (line: number) => `changes (line ${line})`,
  fromTo: (before: string, after: string) => `${before || "–"} → ${after || "–"}`,
  take: (n: number) => `Take ${n} ${plural(n, { one: "line", other: "lines" })} in`,
  taken: (file: string) => `${file} was taken in.`,
  leave: "Leave everything as it is",
};

export type ListWords = typeof lists;
