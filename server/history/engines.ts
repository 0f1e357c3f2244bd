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

/** The histories of the engines, by the serial numbers of the house's register. */
export class EngineHistories {
  readonly #register: Pick<RegisterStore, "all" | "one" | "history">;
  readonly #starts: StartHistories;

  constructor(register: Pick<RegisterStore, "all" | "one" | "history">, starts: StartHistories) {
    this.#register = register;
    this.#starts = starts;
  }

  /** Returns an engine's history; null when the register never had that serial number. */
  async engine(serial: string): Promise<EngineHistory | null> {
    const entries = await this.#register.all("aircraft");
    const on = await this.#everOn(serial, entries);
    if (on.size === 0) return null;
    const { rows, more } = await this.#starts.of(on);
    const own = rows.filter((r) => r.serial === serial);
    const fitted = fittedNow(serial, entries);
    const last = own.at(-1);
    // A note speaks of the place where the engine last ran; an engine that is elsewhere now has none yet.
    const here = last !== undefined && last.aircraft === fitted?.aircraft && last.n === fitted.n;
    return { serial, fitted, rows: own, more, notes: here ? notesOf(own) : [] };
  }

  /** Returns the notes of the engines that are fitted to an aircraft now. */
  async notesFor(aircraft: string): Promise<HistoryNote[]> {
    const entry = await this.#register.one("aircraft", aircraft);
    const notes: HistoryNote[] = [];
    for (const { engine } of entry?.body.fitted ?? [])
      if (engine.serial !== null) notes.push(...((await this.engine(engine.serial))?.notes ?? []));
    return notes;
  }

  /** Returns the starts of one aircraft, of every engine that it ever had. */
  aircraft(id: string): Promise<Starts & { rows: StartRow[] }> {
    return this.#starts.of(new Set([id]));
  }

  /** Returns how the starts of every aircraft went in the last weeks. */
  house(now: number, weeks: number): Promise<HouseHistory> {
    return houseHistory(this.#starts, now, weeks);
  }

  async #everOn(serial: string, entries: readonly RegisterEntry<"aircraft">[]): Promise<Set<string>> {
    const on = new Set<string>();
    for (const { id } of entries) {
      const revisions = await this.#register.history("aircraft", id, REVISIONS);
      if (revisions.some(({ body }) => body.fitted.some((f) => f.engine.serial === serial))) on.add(id);
    }
    return on;
  }
}

function fittedNow(serial: string, entries: readonly RegisterEntry<"aircraft">[]): EngineHistory["fitted"] {
  for (const { id, body } of entries)
    for (const { n, engine } of body.fitted)
      if (engine.serial === serial) return { aircraft: id, n, hours: engine.hours };
  return null;
}
