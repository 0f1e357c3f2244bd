import { type Inspection, inspectionFaults } from "../../shared/dues/inspection.ts";
import type { RegisterEntry } from "../../shared/house/register.ts";
import type { Clock } from "../clock.ts";
import type { Directory } from "../store/directory.ts";
import { asSupervisor, type By, Entries } from "./entries.ts";
import { inOrder } from "./refused.ts";

type Entry = RegisterEntry<"inspection">;

/** The inspections of the house's aircraft. Every method may throw HouseRefused. */
export class Inspections {
  readonly #directory: Directory;
  readonly #entries: Entries<"inspection">;

  constructor(directory: Directory, clock: Clock) {
    this.#directory = directory;
    this.#entries = new Entries("inspection", "inspection", directory, clock);
  }

  /** Returns every inspection, those due no more too. */
  all(): Promise<Entry[]> {
    return this.#entries.all();
  }

  /** Returns the last changes of an inspection, the newest first: each time it was done, and by whom entered. */
  history(id: string): Promise<Entry[]> {
    return this.#entries.history(id);
  }

  async add(by: By, entry: Inspection): Promise<Entry> {
    asSupervisor(by);
    await this.#check(entry);
    return this.#entries.add(by, entry);
  }

  /** Replaces what the register says of an inspection, if it is still at `revision`. */
  async change(by: By, entry: Inspection, revision: number): Promise<Entry> {
    asSupervisor(by);
    const now = await this.#entries.at(entry.id, revision);
    await this.#check(entry);
    return this.#entries.put(now, by, entry, null);
  }

  /** Enters that it was done; `words` say what was done and who signed for it. */
  async done(
    by: By,
    id: string,
    revision: number,
    last: NonNullable<Inspection["last"]>,
    words: string,
  ): Promise<Entry> {
    asSupervisor(by);
    const now = await this.#entries.at(id, revision);
    const entry = { ...now.body, last };
    await this.#check(entry);
    return this.#entries.put(now, by, entry, words);
  }

  async #check(entry: Inspection): Promise<void> {
    const aircraft = await this.#directory.register.one("aircraft", entry.aircraft);
    inOrder(inspectionFaults(entry, aircraft?.body ?? null));
  }
}
