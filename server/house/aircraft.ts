import type { HouseAircraft } from "../../shared/house/aircraft.ts";
import { type EntryFault, fallenHours, fittedFaults } from "../../shared/house/faults.ts";
import { newestApproved, type PlanBar, planBar } from "../../shared/house/planBar.ts";
import { firstEntry, type RegisterEntry } from "../../shared/house/register.ts";
import type { Fitted } from "../../shared/protocol/fitted.ts";
import type { Post } from "../../shared/protocol/posts.ts";
import type { Clock } from "../clock.ts";
import type { Directory } from "../store/directory.ts";
import { HouseRefused, inOrder } from "./refused.ts";

type Entry = RegisterEntry<"aircraft">;

/** A person who changes the register. */
export interface By {
  id: string;
  name: string;
  mayHold: readonly Post[];
}

/** An aircraft with what planning and its page need about its type. */
export interface ListedAircraft {
  entry: Entry;
  typeName: string;
  /** The approved version of its type; null when none is. */
  newest: number | null;
  /** Why it cannot be planned; null when it can. */
  bar: PlanBar | null;
}

/** New hours of the parts at one engine's place; null leaves them as they are. */
export interface NewHours {
  n: number;
  engine: number | null;
  propeller: number | null;
}

/** Changes of an aircraft that are shown: more would only repeat hours. */
const HISTORY = 100;

/** Posts whose people enter hours after a start. */
const HOURS: readonly Post[] = ["cockpit", "supervisor"];

/** The aircraft of the house, in its register. Every method may throw HouseRefused. */
export class AircraftRegister {
  readonly #directory: Directory;
  readonly #clock: Clock;

  constructor(directory: Directory, clock: Clock) {
    this.#directory = directory;
    this.#clock = clock;
  }

  /** Returns every aircraft, by registration, retired ones too. */
  async list(): Promise<ListedAircraft[]> {
    const types = await this.#directory.types();
    return (await this.#directory.register.all("aircraft")).map((entry) => {
      const { typeId, typeVersion } = entry.body;
      const newest = newestApproved(typeId, types);
      const own = types.find((t) => t.id === typeId && t.version === typeVersion);
      return { entry, newest, typeName: own?.name ?? typeId, bar: planBar(entry.body, types) };
    });
  }

  async one(id: string): Promise<ListedAircraft> {
    const found = (await this.list()).find(({ entry }) => entry.id === id);
    if (!found) throw noAircraft(id);
    return found;
  }

  /** Returns the last changes of an aircraft, the newest first. */
  async history(id: string): Promise<Entry[]> {
    const entries = await this.#directory.register.history("aircraft", id, HISTORY);
    if (entries.length === 0) throw noAircraft(id);
    return entries;
  }

  /** Adds an aircraft in service. */
  async add(by: By, aircraft: HouseAircraft): Promise<Entry> {
    qualified(by);
    const others = await this.#others(aircraft.id);
    const same = others.find((o) => o.id.toLowerCase() === aircraft.id.toLowerCase());
    if (same) throw new HouseRefused("taken", `${same.id} is in the register already`);
    inOrder([...(await this.#typeFaults(aircraft)), ...(await this.#fittedFaults(aircraft, others))]);
    const entry = firstEntry("aircraft", aircraft, by.id, this.#clock.now());
    if (!(await this.#directory.register.append([entry])))
      throw new HouseRefused("taken", `${aircraft.id} is in the register already`);
    return entry;
  }

  /** Replaces what the register says of an aircraft, if it is still at `revision`. */
  async change(by: By, aircraft: HouseAircraft, revision: number, reason: string | null): Promise<Entry> {
    qualified(by);
    const now = await this.#at(aircraft.id, revision);
    const { typeId, typeVersion } = now.body;
    const moved = typeId !== aircraft.typeId || typeVersion !== aircraft.typeVersion;
    inOrder([
      ...(moved ? await this.#typeFaults(aircraft) : []),
      ...(await this.#fittedFaults(aircraft, await this.#others(aircraft.id))),
      ...(reason === null ? fallenHours(now.body, aircraft) : []),
    ]);
    return this.#put(now, by, { ...aircraft, retired: now.body.retired }, reason);
  }

  /** Takes an aircraft out of planning for good, or back into it. Nothing else changes. */
  async retire(by: By, id: string, revision: number, retired: boolean, reason: string): Promise<Entry> {
    qualified(by);
    const now = await this.#at(id, revision);
    const after = { ...now.body, retired };
    if (!retired) inOrder(await this.#fittedFaults(after, await this.#others(id)));
    return this.#put(now, by, after, reason);
  }

  /** Enters the hours after a start. They do not fall, and no serial number changes. */
  async hours(by: By, id: string, revision: number, hours: readonly NewHours[]): Promise<Entry> {
    if (!HOURS.some((post) => by.mayHold.includes(post)))
      throw new HouseRefused("notQualified", "Those qualified for cockpit or supervisor enter hours");
    const now = await this.#at(id, revision);
    const fitted = hours.reduce(withHours, now.body.fitted);
    const after = { ...now.body, fitted };
    inOrder([...(await this.#fittedFaults(after, [])), ...fallenHours(now.body, after)]);
    return this.#put(now, by, after, null);
  }

  async #put(now: Entry, by: By, body: HouseAircraft, reason: string | null): Promise<Entry> {
    const entry: Entry = {
      ...{ kind: "aircraft", id: now.id, revision: now.revision + 1 },
      ...{ at: this.#clock.now(), by: by.id, reason, body },
    };
    if (!(await this.#directory.register.append([entry]))) throw stale(now.id);
    return entry;
  }

  async #at(id: string, revision: number): Promise<Entry> {
    const now = await this.#directory.register.one("aircraft", id);
    if (!now) throw noAircraft(id);
    if (now.revision !== revision) throw stale(id);
    return now;
  }

  async #others(id: string): Promise<HouseAircraft[]> {
    return (await this.#directory.register.all("aircraft")).map((e) => e.body).filter((a) => a.id !== id);
  }

  /** An aircraft is put on the approved version of its type and on no other. */
  async #typeFaults({ typeId, typeVersion }: HouseAircraft): Promise<EntryFault[]> {
    const newest = newestApproved(typeId, await this.#directory.types());
    if (newest === null) return [{ path: "typeId", message: `no version of a type ${typeId} is approved` }];
    if (newest === typeVersion) return [];
    return [{ path: "typeVersion", message: `version ${newest} of ${typeId} is the approved one` }];
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

function qualified({ name, mayHold }: By): void {
  if (!mayHold.includes("supervisor"))
    throw new HouseRefused("notQualified", `${name} is not qualified as supervisor`);
}

function noAircraft(id: string): HouseRefused {
  return new HouseRefused("notFound", `There is no aircraft ${id} in the register`);
}

function stale(id: string): HouseRefused {
  return new HouseRefused(
    "stale",
    `${id} was changed after you read it: read it again, then make your change anew`,
  );
}
