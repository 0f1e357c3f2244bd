import { type Due, duesOf, type KnownStarts } from "../../shared/dues/dues.ts";
import type { AircraftRecords } from "../aircraft/records.ts";
import type { Clock } from "../clock.ts";
import type { StartHistories } from "../history/starts.ts";
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
  starts: Pick<StartHistories, "of">;
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
    const due = (await inspections.all()).map((e) => e.body);
    const byStarts = new Set(due.filter((d) => d.every.by === "starts").map((d) => d.aircraft));
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
        inspections: due,
        aircraft: await this.#aircraft(byStarts),
      },
      clock.now(),
    );
  }

  /** @param byStarts the aircraft whose starts are counted: they are read for these alone */
  async #aircraft(byStarts: ReadonlySet<string>) {
    const { directory, records } = this.#deps;
    const all = await directory.register.all("aircraft");
    return Promise.all(
      all.map(async ({ body: entry }) => ({
        entry,
        type: (await directory.type(entry.typeId, entry.typeVersion))?.type ?? null,
        engines: (await records.read(entry.id))?.engines ?? [],
        starts: byStarts.has(entry.id) ? await this.#starts(entry.id) : NO_STARTS,
      })),
    );
  }

  async #starts(aircraft: string): Promise<KnownStarts> {
    const { rows, more } = await this.#deps.starts.of(new Set([aircraft]));
    const each = rows.map(({ at, n, session }) => ({ at, n, session }));
    return { from: more ? (each[0]?.at ?? null) : null, each };
  }
}

const NO_STARTS: KnownStarts = { from: null, each: [] };
