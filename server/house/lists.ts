import { canonical } from "../../shared/evidence/canonical.ts";
import { aircraftCells, aircraftColumns } from "../../shared/house/lists/aircraft.ts";
import { type CsvFault, writeCsv } from "../../shared/house/lists/csv.ts";
import { EQUIPMENT_COLUMNS, equipmentCells } from "../../shared/house/lists/equipment.ts";
import type { ListChange, ListKind } from "../../shared/house/lists/list.ts";
import { peopleColumns, personCells } from "../../shared/house/lists/people.ts";
import { OneAtATime } from "../one-at-a-time.ts";
import { sha256 } from "../sha256.ts";
import { aircraftWork } from "./aircraft-list.ts";
import { asSupervisor, type By } from "./entries.ts";
import { equipmentWork } from "./equipment-list.ts";
import type { ListDeps, ListWork } from "./list-work.ts";
import { listedPeople, peopleWork } from "./people-list.ts";
import { HouseRefused } from "./refused.ts";

/** The changes that a file would make. `tag` identifies it: the same file does it only while the house is as it was then. */
export interface JudgedList {
  rows: ListChange[];
  faults: CsvFault[];
  tag: string;
}

const WORK: Readonly<Record<ListKind, (deps: ListDeps, by: By, text: string) => Promise<ListWork>>> = {
  people: peopleWork,
  aircraft: aircraftWork,
  equipment: equipmentWork,
};

/** The people, aircraft and equipment of a house as lists that leave and enter it. Methods may throw HouseRefused. */
export class HouseLists {
  readonly #deps: ListDeps;
  /** Files that are being taken in. */
  readonly #taking = new OneAtATime();

  constructor(deps: ListDeps) {
    this.#deps = deps;
  }

  /** Returns a list as a file. No PIN is in it. */
  async save(by: By, kind: ListKind): Promise<string> {
    asSupervisor(by);
    const { columns, rows } = await this.#cells(kind);
    return writeCsv([columns, ...rows.map((cells) => columns.map((column) => cells[column] ?? ""))]);
  }

  /** Returns what a file would change, and changes nothing. */
  async judge(by: By, kind: ListKind, text: string): Promise<JudgedList> {
    asSupervisor(by);
    const { rows, faults } = await WORK[kind](this.#deps, by, text);
    return { rows, faults, tag: tagOf(rows) };
  }

  /**
   * Takes a file in as it was judged: all of it or nothing. What the file does not name stays.
   * @param before called with the people who lose a post, before anything is changed
   */
  take(
    by: By,
    kind: ListKind,
    { text, tag }: { text: string; tag: string },
    before: (losing: readonly string[]) => Promise<void> = async () => undefined,
  ): Promise<JudgedList> {
    asSupervisor(by);
    const work = () => this.#take(by, kind, text, tag, before);
    return this.#taking.run(() => this.#deps.directory.inTurn([`list ${kind}`], work));
  }

  async #take(
    by: By,
    kind: ListKind,
    text: string,
    tag: string,
    before: (losing: readonly string[]) => Promise<void>,
  ): Promise<JudgedList> {
    const work = await WORK[kind](this.#deps, by, text);
    const { rows, faults, losing } = work;
    if (faults.length > 0) {
      const entries = faults.map(({ line, column, message }) => ({
        path: column === null ? `line ${line}` : `line ${line}, ${column}`,
        message,
      }));
      throw new HouseRefused("faultyEntry", "The file has faults: nothing was taken in", entries);
    }
    if (tagOf(rows) !== tag)
      throw new HouseRefused("stale", "The house was changed after the file was looked at: look again");
    await before(losing);
    await work.write();
    return { rows, faults, tag };
  }

  async #cells(kind: ListKind): Promise<{ columns: readonly string[]; rows: Record<string, string>[] }> {
    const { directory } = this.#deps;
    switch (kind) {
      case "people": {
        const kinds = (await directory.register.all("currency")).map((e) => e.id);
        return { columns: peopleColumns(kinds), rows: (await listedPeople(directory)).map(personCells) };
      }
      case "aircraft": {
        const all = (await directory.register.all("aircraft")).map((e) => e.body);
        const types = await Promise.all(all.map((a) => directory.type(a.typeId, a.typeVersion)));
        const engines = types.map((t) => t?.type.engines.length ?? 0);
        const fitted = all.flatMap((a) => a.fitted.map((f) => f.n));
        return { columns: aircraftColumns(Math.max(1, ...engines, ...fitted)), rows: all.map(aircraftCells) };
      }
      case "equipment": {
        const all = await directory.register.all("equipment");
        return { columns: EQUIPMENT_COLUMNS, rows: all.map((e) => equipmentCells(e.body)) };
      }
    }
  }
}

const tagOf = (rows: readonly ListChange[]): string => sha256(canonical(rows));
