import { barsUse, type EquipmentFault, equipmentFaultsNow } from "../../shared/house/due.ts";
import {
  equipmentFaults,
  factsOf,
  type HouseEquipment,
  type OutOfService,
} from "../../shared/house/equipment.ts";
import type { RegisterEntry } from "../../shared/house/register.ts";
import type { ShownEquipment } from "../../shared/session/verdict.ts";
import type { Clock } from "../clock.ts";
import type { Directory } from "../store/directory.ts";
import { asSupervisor, type By, Entries } from "./entries.ts";
import { HouseRefused, inOrder } from "./refused.ts";
import { houseOf } from "./settings.ts";

type Entry = RegisterEntry<"equipment">;

/** A piece of equipment and what speaks against it now, the worst first. */
export interface ListedEquipment {
  entry: Entry;
  faults: EquipmentFault[];
}

/** The equipment of the house, in its register. Every method may throw HouseRefused. */
export class EquipmentRegister {
  readonly #directory: Directory;
  readonly #clock: Clock;
  readonly #entries: Entries<"equipment">;

  constructor(directory: Directory, clock: Clock) {
    this.#directory = directory;
    this.#clock = clock;
    this.#entries = new Entries("equipment", "equipment", directory, clock);
  }

  /** Returns every piece, by label, those out of service too. */
  async list(): Promise<ListedEquipment[]> {
    const { overdue } = (await houseOf(this.#directory)).body;
    const now = this.#clock.now();
    return (await this.#entries.all()).map((entry) => ({
      entry,
      faults: equipmentFaultsNow(entry.body, overdue, now),
    }));
  }

  async one(label: string): Promise<ListedEquipment> {
    const found = (await this.list()).find(({ entry }) => entry.id === label);
    if (!found) throw this.#entries.none(label);
    return found;
  }

  /** Returns what a session is told about a label that somebody read at the stand; null for an unknown one. */
  async shown(label: string): Promise<ShownEquipment | null> {
    const found = (await this.list()).find(({ entry }) => entry.id === label);
    return found ? { facts: factsOf(found.entry.body), barred: found.faults.some(barsUse) } : null;
  }

  /** Returns the last changes of a piece, the newest first. */
  history(label: string): Promise<Entry[]> {
    return this.#entries.history(label);
  }

  /** Adds a piece in service. */
  async add(by: By, entry: HouseEquipment): Promise<Entry> {
    asSupervisor(by);
    inOrder(equipmentFaults(entry));
    return this.#entries.add(by, entry);
  }

  /** Replaces what the register says of a piece, if it is still at `revision`. Its kind stays. */
  async change(by: By, entry: HouseEquipment, revision: number): Promise<Entry> {
    asSupervisor(by);
    const now = await this.#entries.at(entry.id, revision);
    const kept = now.body.kind;
    inOrder([
      ...(kept === entry.kind ? [] : [{ path: "kind", message: `${entry.id} is of the kind ${kept}` }]),
      ...equipmentFaults(entry),
    ]);
    return this.#entries.put(now, by, { ...entry, out: now.body.out }, null);
  }

  /**
   * Takes a piece out of service, or puts it back. Everybody at a post takes out what they found broken or used up; a
   * supervisor puts it back.
   */
  async setOut(
    by: By,
    label: string,
    revision: number,
    out: OutOfService | null,
    reason: string,
  ): Promise<Entry> {
    if (out === null) asSupervisor(by);
    else if (by.mayHold.length === 0)
      throw new HouseRefused("notQualified", `${by.name} is not qualified for any post`);
    const now = await this.#entries.at(label, revision);
    return this.#entries.put(now, by, { ...now.body, out }, reason);
  }
}
