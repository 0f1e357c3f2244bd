import type { HouseAircraft } from "../../shared/house/aircraft.ts";
import { type EntryFault, fallenHours, fittedFaults, versionFaults } from "../../shared/house/faults.ts";
import { newestApproved, type PlanBar, planBar } from "../../shared/house/planBar.ts";
import type { RegisterEntry } from "../../shared/house/register.ts";
import type { Fitted } from "../../shared/protocol/fitted.ts";
import type { Post } from "../../shared/protocol/posts.ts";
import type { Clock } from "../clock.ts";
import type { Directory } from "../store/directory.ts";
import { asSupervisor, type By, Entries } from "./entries.ts";
import { HouseRefused, inOrder } from "./refused.ts";

type Entry = RegisterEntry<"aircraft">;

/** An aircraft with what planning and its page need about its type. */
export interface ListedAircraft {
  entry: Entry;
  typeName: string;
  /** The approved version of its type; null when none is. */
  newest: number | null;
  /** The reason why it cannot be planned; null when it can. */
  bar: PlanBar | null;
}

/** New hours of the parts at one engine's place; null leaves them as they are. */
export interface NewHours {
  n: number;
  engine: number | null;
  propeller: number | null;
}

/** Posts whose people enter hours after a start. */
const HOURS: readonly Post[] = ["cockpit", "supervisor"];

/** The aircraft of the house, in its register. Every method may throw HouseRefused. */
export class AircraftRegister {
  readonly #directory: Directory;
  readonly #entries: Entries<"aircraft">;

  constructor(directory: Directory, clock: Clock) {
    this.#directory = directory;
    this.#entries = new Entries("aircraft", "aircraft", directory, clock);
  }

  /** Returns every aircraft, by registration, retired ones too. */
  async list(): Promise<ListedAircraft[]> {
    const types = await this.#directory.types();
    return (await this.#entries.all()).map((entry) => {
      const { typeId, typeVersion } = entry.body;
      const newest = newestApproved(typeId, types);
      const own = types.find((t) => t.id === typeId && t.version === typeVersion);
      return { entry, newest, typeName: own?.name ?? typeId, bar: planBar(entry.body, types) };
    });
  }

  async one(id: string): Promise<ListedAircraft> {
    const found = (await this.list()).find(({ entry }) => entry.id === id);
    if (!found) throw this.#entries.none(id);
    return found;
  }

  /** Returns the last changes of an aircraft, the newest first. */
  history(id: string): Promise<Entry[]> {
    return this.#entries.history(id);
  }

  /** Adds an aircraft in service. */
  async add(by: By, aircraft: HouseAircraft): Promise<Entry> {
    asSupervisor(by);
    inOrder([
      ...(await this.#typeFaults(aircraft)),
      ...(await this.#fittedFaults(aircraft, await this.#others(aircraft.id))),
    ]);
    return this.#entries.add(by, aircraft);
  }

  /** Replaces what the register says of an aircraft, if it is still at `revision`. */
  async change(by: By, aircraft: HouseAircraft, revision: number, reason: string | null): Promise<Entry> {
    asSupervisor(by);
    const now = await this.#entries.at(aircraft.id, revision);
    const { typeId, typeVersion } = now.body;
    const moved = typeId !== aircraft.typeId || typeVersion !== aircraft.typeVersion;
    inOrder([
      ...(moved ? await this.#typeFaults(aircraft) : []),
      ...(await this.#fittedFaults(aircraft, await this.#others(aircraft.id))),
      ...(reason === null ? fallenHours(now.body, aircraft) : []),
    ]);
    return this.#entries.put(now, by, { ...aircraft, retired: now.body.retired }, reason);
  }

  /** Takes an aircraft out of planning for good, or back into it. Nothing else changes. */
  async retire(by: By, id: string, revision: number, retired: boolean, reason: string): Promise<Entry> {
    asSupervisor(by);
    const now = await this.#entries.at(id, revision);
    const after = { ...now.body, retired };
    if (!retired) inOrder(await this.#fittedFaults(after, await this.#others(id)));
    return this.#entries.put(now, by, after, reason);
  }

  /** Enters the hours after a start. They do not fall, and no serial number changes. */
  async hours(by: By, id: string, revision: number, hours: readonly NewHours[]): Promise<Entry> {
    if (!HOURS.some((post) => by.mayHold.includes(post)))
      throw new HouseRefused("notQualified", "Those qualified for cockpit or supervisor enter hours");
    const now = await this.#entries.at(id, revision);
    const fitted = hours.reduce(withHours, now.body.fitted);
    const after = { ...now.body, fitted };
    inOrder([...(await this.#fittedFaults(after, [])), ...fallenHours(now.body, after)]);
    return this.#entries.put(now, by, after, null);
  }

  async #others(id: string): Promise<HouseAircraft[]> {
    return (await this.#entries.all()).map((e) => e.body).filter((a) => a.id !== id);
  }

  async #typeFaults(aircraft: HouseAircraft): Promise<EntryFault[]> {
    return versionFaults(aircraft, await this.#directory.types());
  }

  async #fittedFaults(aircraft: HouseAircraft, others: readonly HouseAircraft[]): Promise<EntryFault[]> {
    const type = await this.#directory.type(aircraft.typeId, aircraft.typeVersion);
    return type ? fittedFaults(aircraft, type.type.engines.length, others) : [];
  }
}

function withHours(all: readonly Fitted[], { n, engine, propeller }: NewHours): Fitted[] {
  const nothing = { serial: null, hours: null };
  const old = all.find((f) => f.n === n) ?? { n, engine: nothing, propeller: nothing, starter: null };
  const next: Fitted = {
    ...old,
    engine: engine === null ? old.engine : { ...old.engine, hours: engine },
    propeller: propeller === null ? old.propeller : { ...old.propeller, hours: propeller },
  };
  return [...all.filter((f) => f.n !== n), next].sort((a, b) => a.n - b.n);
}
