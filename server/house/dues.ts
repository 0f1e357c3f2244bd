import { type Due, duesOf } from "../../shared/dues/dues.ts";
import type { AircraftRecords } from "../aircraft/records.ts";
import type { Clock } from "../clock.ts";
import type { Directory } from "../store/directory.ts";
import type { Currencies } from "./currencies.ts";
import type { Inspections } from "./inspections.ts";
import { houseOf } from "./settings.ts";

/** The sources of a house's dues. */
export interface DuesDeps {
  directory: Directory;
  records: AircraftRecords;
  currencies: Currencies;
  inspections: Inspections;
  clock: Clock;
}

/** Gathers everything of the house that has a last day or hour. */
export class Dues {
  readonly #deps: DuesDeps;

  constructor(deps: DuesDeps) {
    this.#deps = deps;
  }

  /** Returns what is over first, then by day. */
  async list(): Promise<Due[]> {
    const { directory, currencies, inspections, clock } = this.#deps;
    const { overdue } = (await houseOf(directory)).body;
    const equipment = await directory.register.all("equipment");
    return duesOf(
      {
        currencies: (await currencies.kinds()).map((e) => e.body),
        people: (await currencies.kept()).map(({ person, kept }) => ({
          id: person.id,
          name: person.name,
          kept,
        })),
        equipment: equipment.map((e) => e.body),
        overdue,
        inspections: (await inspections.all()).map((e) => e.body),
        aircraft: await this.#aircraft(),
      },
      clock.now(),
    );
  }

  async #aircraft() {
    const { directory, records } = this.#deps;
    const all = await directory.register.all("aircraft");
    return Promise.all(
      all.map(async ({ body: entry }) => ({
        entry,
        type: (await directory.type(entry.typeId, entry.typeVersion))?.type ?? null,
        engines: (await records.read(entry.id))?.engines ?? [],
      })),
    );
  }
}
