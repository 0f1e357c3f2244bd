import { readFileSync, writeFileSync } from "node:fs";
import type { CsvFault } from "../../shared/house/lists/csv.ts";
import { LISTS, type ListChange, type ListKind } from "../../shared/house/lists/list.ts";
import { StartRefused } from "../start-refused.ts";
import type { Directory } from "../store/directory.ts";
import type { By } from "./entries.ts";
import type { HouseLists } from "./lists.ts";

export const LIST_USAGE = `       npm run house -- people|aircraft|equipment save <file.csv>
       npm run house -- people|aircraft|equipment read <file.csv>       what it would change
       npm run house -- people|aircraft|equipment take <file.csv>       does it, all or nothing`;

type Command = (directory: Directory) => Promise<void>;

/** Returns the commands of the lists, by topic and verb. */
export function listCommands(
  of: (directory: Directory) => HouseLists,
  by: By,
  rest: readonly string[],
): Record<string, Command> {
  const verbs = { save, read, take };
  return Object.fromEntries(
    LISTS.flatMap((kind) =>
      Object.entries(verbs).map(([verb, act]): [string, Command] => [
        `${kind} ${verb}`,
        (directory) => act(of(directory), by, kind, fileIn(rest)),
      ]),
    ),
  );
}

function fileIn([file, ...more]: readonly string[]): string {
  if (!file || more.length > 0) throw new StartRefused(`usage:\n${LIST_USAGE}`);
  return file;
}

async function save(lists: HouseLists, by: By, kind: ListKind, file: string): Promise<void> {
  const text = await lists.save(by, kind);
  tried(() => writeFileSync(file, text, { mode: 0o600 }));
  console.log(`${file} holds the ${kind} of the house, without PINs`);
}

async function read(lists: HouseLists, by: By, kind: ListKind, file: string): Promise<void> {
  const { rows, faults } = await lists.judge(by, kind, textOf(file));
  refuse(faults);
  for (const row of rows) for (const said of linesOf(row)) console.log(said);
  console.log(`nothing was changed: ${summary(rows)}`);
}

async function take(lists: HouseLists, by: By, kind: ListKind, file: string): Promise<void> {
  const text = textOf(file);
  const { faults, tag } = await lists.judge(by, kind, text);
  refuse(faults);
  const { rows } = await lists.take(by, kind, { text, tag });
  console.log(`taken in: ${summary(rows)}`);
}

function refuse(faults: readonly CsvFault[]): void {
  if (faults.length === 0) return;
  const said = faults.map((f) => `  line ${f.line}${f.column === null ? "" : `, ${f.column}`}: ${f.message}`);
  throw new StartRefused(`the file has faults, and nothing was changed\n${said.join("\n")}`);
}

function linesOf({ line, id, is, cells }: ListChange): string[] {
  if (is === "same") return [];
  const told = cells.map(({ column, before, after }) =>
    is === "added" ? `    ${column}: ${after}` : `    ${column}: ${before || "–"} → ${after || "–"}`,
  );
  return [`line ${line}: ${id} ${is === "added" ? "is new" : "changes"}`, ...told];
}

function summary(rows: readonly ListChange[]): string {
  const of = (is: ListChange["is"]) => rows.filter((r) => r.is === is).length;
  return `${of("added")} new, ${of("changed")} changed, ${of("same")} as they are`;
}

const textOf = (file: string): string => tried(() => readFileSync(file, "utf8"));

function tried<T>(work: () => T): T {
  try {
    return work();
  } catch (error) {
    throw new StartRefused((error as Error).message);
  }
}
