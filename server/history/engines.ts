import { type HistoryNote, notesOf } from "../../shared/history/notes.ts";
import type { StartRow } from "../../shared/history/row.ts";
import type { RegisterEntry } from "../../shared/house/register.ts";
import type { RegisterStore } from "../store/register.ts";
import { type HouseHistory, houseHistory } from "./house.ts";
import type { StartHistories, Starts } from "./starts.ts";

/** Revisions of an aircraft's entry that are searched for a serial number. */
const REVISIONS = 1_000;

/** The history of one engine, wherever it was fitted. */
export interface EngineHistory extends Starts {
  serial: string;
  /** Its present place; null when it is on no aircraft. */
  fitted: { aircraft: string; n: number; hours: number | null } | null;
  notes: HistoryNote[];
}

/** The history of one aircraft, of every engine that it ever had; the notes are of the engines fitted now. */
export interface AircraftHistory extends Starts {
  notes: HistoryNote[];
}

/** Reads the starts of some aircraft. */
type Read = (on: ReadonlySet<string>) => Promise<Starts>;

/** The histories of the engines, by the serial numbers of the house's register. */
export class EngineHistories {
  readonly #register: Pick<RegisterStore, "all" | "history">;
  readonly #starts: Pick<StartHistories, "of" | "since">;
  /** The serial numbers that each aircraft ever had, up to a revision of its entry. */
  readonly #serials = new Map<string, { revision: number; had: Set<string> }>();
  /** The notes of each engine, and the rows that they were made from. */
  readonly #notes = new Map<string, { rows: readonly StartRow[]; notes: HistoryNote[] }>();

  constructor(
    register: Pick<RegisterStore, "all" | "history">,
    starts: Pick<StartHistories, "of" | "since">,
  ) {
    this.#register = register;
    this.#starts = starts;
  }

  /** Returns an engine's history; null when the register never had that serial number. */
  async engine(serial: string): Promise<EngineHistory | null> {
    return this.#engine(serial, await this.#register.all("aircraft"), (on) => this.#starts.of(on));
  }

  /** Returns the starts of one aircraft, of every engine that it ever had. */
  async aircraft(id: string): Promise<AircraftHistory> {
    const read = this.#once();
    const starts = await read(new Set([id]));
    return { ...starts, notes: await this.#notesFor(id, read) };
  }

  /** Returns the notes of the engines that are fitted to an aircraft now. */
  notesFor(aircraft: string): Promise<HistoryNote[]> {
    return this.#notesFor(aircraft, this.#once());
  }

  /** Returns how the starts of every aircraft went in the last weeks. */
  house(now: number, weeks: number): Promise<HouseHistory> {
    return houseHistory(this.#starts, now, weeks);
  }

  async #notesFor(aircraft: string, read: Read): Promise<HistoryNote[]> {
    const entries = await this.#register.all("aircraft");
    const notes: HistoryNote[] = [];
    for (const { engine } of entries.find(({ id }) => id === aircraft)?.body.fitted ?? [])
      if (engine.serial !== null)
        notes.push(...((await this.#engine(engine.serial, entries, read))?.notes ?? []));
    return notes;
  }

  async #engine(
    serial: string,
    entries: readonly RegisterEntry<"aircraft">[],
    read: Read,
  ): Promise<EngineHistory | null> {
    const on = new Set<string>();
    for (const entry of entries) if ((await this.#everHad(entry)).has(serial)) on.add(entry.id);
    if (on.size === 0) return null;
    const { rows, more } = await read(on);
    const own = rows.filter((r) => r.serial === serial);
    const fitted = fittedNow(serial, entries);
    const last = own.at(-1);
    // A note speaks of the place where the engine last ran; an engine that is elsewhere now has none yet.
    const here = last !== undefined && last.aircraft === fitted?.aircraft && last.n === fitted.n;
    return { serial, fitted, rows: own, more, notes: here ? this.#notesOf(serial, own) : [] };
  }

  /** Returns a reading of starts that reads those of the same aircraft once: its engines share most of them. */
  #once(): Read {
    const known = new Map<string, Promise<Starts>>();
    return (on) => {
      const key = JSON.stringify([...on].sort());
      const starts = known.get(key) ?? this.#starts.of(on);
      known.set(key, starts);
      return starts;
    };
  }

  /** Returns the serial numbers that an aircraft ever had. Revisions are never changed, so each is read once. */
  async #everHad({ id, revision }: RegisterEntry<"aircraft">): Promise<Set<string>> {
    const known = this.#serials.get(id);
    if (known?.revision === revision) return known.had;
    const revisions = await this.#register.history("aircraft", id, REVISIONS);
    const had = new Set(
      revisions.flatMap(({ body }) => body.fitted.flatMap(({ engine }) => engine.serial ?? [])),
    );
    this.#serials.set(id, { revision, had });
    return had;
  }

  /** The charts behind the notes are drawn anew only after another start: a session's rows are replaced when they change. */
  #notesOf(serial: string, rows: readonly StartRow[]): HistoryNote[] {
    const known = this.#notes.get(serial);
    if (known?.rows.length === rows.length && known.rows.every((row, i) => row === rows[i]))
      return known.notes;
    const notes = notesOf(rows);
    this.#notes.set(serial, { rows, notes });
    return notes;
  }
}

function fittedNow(serial: string, entries: readonly RegisterEntry<"aircraft">[]): EngineHistory["fitted"] {
  for (const { id, body } of entries)
    for (const { n, engine } of body.fitted)
      if (engine.serial === serial) return { aircraft: id, n, hours: engine.hours };
  return null;
}
