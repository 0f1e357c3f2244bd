import { NOTHING_REPORTED } from "../../shared/aircraft/record.ts";
import { standingFor } from "../../shared/aircraft/standingFor.ts";
import { canonical } from "../../shared/evidence/canonical.ts";
import { readSealed } from "../../shared/evidence/read.ts";
import { barsUse } from "../../shared/house/due.ts";
import { factsOf } from "../../shared/house/equipment.ts";
import { planBar } from "../../shared/house/planBar.ts";
import { questionFor } from "../../shared/plan/orderAdvice.ts";
import { adviceFor } from "../../shared/plan/orderFor.ts";
import { usualOrder } from "../../shared/plan/usualOrder.ts";
import type { Equipment } from "../../shared/protocol/equipment.ts";
import type { FactOf } from "../../shared/protocol/events.ts";
import type { StandNeighbour } from "../../shared/protocol/neighbours.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import { isRehearsalId } from "../../shared/protocol/rehearsal.ts";
import type { Purpose } from "../../shared/protocol/stages.ts";
import type { Standing } from "../../shared/protocol/standing.ts";
import { type Person, plan } from "../../shared/session/step.ts";
import { isOrderOf } from "../../shared/types/isOrderOf.ts";
import type { AircraftRecords } from "../aircraft/records.ts";
import type { Clock } from "../clock.ts";
import type { Named } from "../evidence/names.ts";
import { barWords } from "../house/bar-words.ts";
import type { Currencies } from "../house/currencies.ts";
import type { EquipmentRegister } from "../house/equipment.ts";
import { faultWords } from "../house/fault-words.ts";
import { houseOf } from "../house/settings.ts";
import { OneAtATime, OneAtATimeByKey } from "../one-at-a-time.ts";
import { sha256 } from "../sha256.ts";
import type { Directory } from "../store/directory.ts";
import { ConcurrencyError, type EventStore, type SessionRow, StoreFailure } from "../store/events.ts";
import type { TypeSeals } from "../types/seals.ts";
import type { Sessions } from "./sessions.ts";
import { sharedType } from "./shared-type.ts";

/** A plan as a person enters it. */
export interface PlanInput {
  commandId: string;
  aircraft: string;
  /** Version of the aircraft type that the plan assumes; by default the newest approved one. */
  typeVersion?: number | undefined;
  place: string;
  /** By default a start. */
  purpose?: Purpose | undefined;
  /** Engines in the order in which they are started or stopped. */
  order?: number[] | undefined;
  /** Reason for an order other than the advised one. */
  orderReason?: string | undefined;
  powerSource: "groundPower" | "batteries";
  /** Heading of the nose in degrees true, and elevation of the airfield in feet. */
  headingDeg?: number | undefined;
  elevationFt?: number | undefined;
  /** Obstacles near the stand. Their bearings need the heading. */
  neighbours?: StandNeighbour[] | undefined;
  /** Labels of the equipment allocated to the start. */
  equipment?: string[] | undefined;
  /** Person ids. */
  crew: Record<Post, string | null>;
}

/** A fault in a plan, and its path. */
export interface PlanFault {
  path: string;
  message: string;
}

export type PlanResult =
  | { is: "planned"; id: string; code: string }
  | { is: "faulty"; faults: PlanFault[] }
  | { is: "idReused" }
  /** The person may hold neither post that plans. */
  | { is: "notQualified" }
  /** They planned this many sessions that are not over. */
  | { is: "tooMany"; open: number };

export interface Ids {
  session(): string;
  /** Six characters by which people join. */
  code(): string;
}

const NOTHING_STANDS: Standing = {
  record: 0,
  items: [],
  ended: [],
  engines: [],
  lastReported: NOTHING_REPORTED,
};

interface PlanningDeps {
  directory: Directory;
  store: EventStore;
  sessions: Sessions;
  records: AircraftRecords;
  equipment: Pick<EquipmentRegister, "list">;
  currencies: Pick<Currencies, "standing">;
  clock: Clock;
  ids: Ids;
  names: { know(people: readonly Named[]): Promise<void> };
  seals: Pick<TypeSeals, "usable">;
}

/** Posts whose people plan. */
const PLANNERS: readonly Post[] = ["cockpit", "supervisor"];

/** Sessions that are not over, planned by one person. A busy ramp has some ten starts at once. */
export const OPEN_PER_PERSON = 40;

/** Plans sessions: checks a plan against the aircraft's type and the people, then records it as event 1. */
export class Planning {
  readonly #deps: PlanningDeps;
  /** The person who planned each open session. */
  readonly #planners = new Map<string, string>();
  /** Plans under way, by person: a hundred at once count one by one. */
  readonly #turns = new OneAtATimeByKey();
  /** Plans under way that allocate equipment. */
  readonly #allocating = new OneAtATime();

  constructor(deps: PlanningDeps) {
    this.#deps = deps;
  }

  /** Plans a session. Called again with the same `commandId`, it returns the session planned first. */
  async plan(person: Person, input: PlanInput): Promise<PlanResult> {
    if (!PLANNERS.some((post) => person.mayHold.includes(post))) return { is: "notQualified" };
    return this.#turns.run(person.id, () => this.#plan(person, input));
  }

  async #plan(person: Person, input: PlanInput): Promise<PlanResult> {
    await this.#deps.sessions.whole;
    const digest = sha256(canonical(input));
    const repeated = await this.#repeated(input.commandId, digest);
    if (repeated) return repeated;
    const open = await this.#openOf(person.id);
    if (open >= OPEN_PER_PERSON) return { is: "tooMany", open };
    const labels = (input.equipment ?? []).map((label) => `equipment ${label}`);
    const plan = () => this.#checked(person, input, digest);
    return labels.length > 0 ? this.#allocate(labels, plan) : plan();
  }

  /** Runs work while nobody else allocates equipment: here one after another, and on other servers by label. */
  #allocate<T>(labels: readonly string[], work: () => Promise<T>): Promise<T> {
    return this.#allocating.run(() => this.#deps.directory.inTurn(labels, work));
  }

  /** Checks a plan that is new, and records it. */
  async #checked(person: Person, input: PlanInput, digest: string): Promise<PlanResult> {
    const { store, sessions, clock, ids } = this.#deps;
    const checked = await this.#check(input);
    if ("faults" in checked) return { is: "faulty", faults: checked.faults };

    const crew = Object.values(checked.fact.crew).flatMap((p) =>
      p ? [{ personId: p.id, name: p.name }] : [],
    );
    await this.#deps.names.know(crew);
    const now = clock.now();
    const id = ids.session();
    const mark = { id: input.commandId, digest, clientAt: now };
    const standing = await this.#standing(input.aircraft, id);
    const field = await sessions.fieldOf(input.place, id);
    const step = plan(id, { ...checked.fact, standing, field }, person, mark, now);
    let code = ids.code();
    while (await store.sessionByCode(code)) code = ids.code();
    try {
      await sessions.begin({ code, planCommand: input.commandId, createdAt: now }, step);
    } catch (error) {
      // The same plan was sent twice at once, and the other request was first.
      const first = error instanceof ConcurrencyError && (await this.#repeated(input.commandId, digest));
      if (first) return first;
      throw error;
    }
    return { is: "planned", id, code };
  }

  /** Returns how many open sessions the person planned. Reads who planned each session once. */
  async #openOf(person: string): Promise<number> {
    const rows = (await this.#deps.store.openSessions()).filter((row) => !isRehearsalId(row.id));
    const ids = new Set(rows.map((row) => row.id));
    for (const id of this.#planners.keys()) if (!ids.has(id)) this.#planners.delete(id);
    for (const id of ids) {
      if (this.#planners.has(id)) continue;
      const [first] = await this.#deps.store.read(id, 0, 1);
      const actor = first ? readSealed(first.body).event.actor : null;
      this.#planners.set(id, actor?.kind === "person" ? actor.id : "");
    }
    return [...this.#planners.values()].filter((id) => id === person).length;
  }

  async #repeated(commandId: string, digest: string): Promise<PlanResult | null> {
    const row: SessionRow | null = await this.#deps.store.sessionByPlan(commandId);
    if (!row) return null;
    const [first] = await this.#deps.store.read(row.id, 0, 1);
    const same = first !== undefined && JSON.parse(first.body).digest === digest;
    return same ? { is: "planned", id: row.id, code: row.code } : { is: "idReused" };
  }

  /**
   * Returns what stands at the aircraft, as the session to be planned is told it. An aircraft without a record yet has
   * one begun from its last session.
   */
  async #standing(aircraft: string, session: string): Promise<Standing> {
    const { store, sessions, records } = this.#deps;
    let record = await records.read(aircraft);
    const last = record ? null : await store.lastSessionOf(aircraft);
    if (last) {
      await records.contribute((await sessions.get(last.id)).state);
      record = await records.read(aircraft);
    }
    return record ? standingFor(record, session) : NOTHING_STANDS;
  }

  async #check(input: PlanInput): Promise<{ fact: FactOf<"planned"> } | { faults: PlanFault[] }> {
    const { directory } = this.#deps;
    const faults: PlanFault[] = [];
    const aircraft = (await directory.register.one("aircraft", input.aircraft))?.body;
    if (!aircraft) return { faults: [{ path: "aircraft", message: "no such aircraft" }] };
    const usable = await this.#deps.seals.usable(aircraft.typeId);
    if (usable && "why" in usable) return { faults: [{ path: "aircraft", message: usable.why }] };
    const bar = planBar(aircraft, await directory.types());
    if (bar) return { faults: [{ path: "aircraft", message: barWords(bar) }] };
    if (!usable) throw new StoreFailure(`the approved version of ${aircraft.typeId} cannot be read`);
    const { type, seal } = usable;
    if (input.typeVersion !== undefined && input.typeVersion !== type.version) {
      const message = `version ${input.typeVersion} of ${type.name} cannot be planned: version ${type.version} is the approved one`;
      return { faults: [{ path: "typeVersion", message }] };
    }
    const purpose = input.purpose ?? "start";
    const order = input.order ?? usualOrder(type, purpose);
    if (!isOrderOf(order, type)) {
      const message = `must name engines 1 to ${type.engines.length} of ${type.name}, each at most once`;
      faults.push({ path: "order", message });
    }
    const advice = isOrderOf(order, type)
      ? adviceFor(purpose, questionFor(type, order, input.headingDeg), order)
      : null;
    if (advice && advice.order.join() !== order.join() && input.orderReason === undefined) {
      const message = `say why: ${advice.order.join("-")} is advised`;
      faults.push({ path: "orderReason", message });
    }
    if (input.neighbours?.length && input.headingDeg === undefined) {
      const message = "needed to place what stands near: its bearings are degrees true";
      faults.push({ path: "headingDeg", message });
    }
    const equipment = await this.#equipment(input.equipment ?? [], faults);
    const crew: FactOf<"planned">["crew"] = {
      cockpit: null,
      fireGuard: null,
      groundPower: null,
      supervisor: null,
    };
    const named = new Set<string>();
    for (const post of POSTS) {
      const id = input.crew[post];
      if (id === null) continue;
      const person = await directory.person(id);
      const { lapsed } = await this.#deps.currencies.standing(id, post);
      const fault = (message: string) => faults.push({ path: `crew.${post}`, message });
      if (!person?.active) fault("no such person");
      else if (!person.mayHold.includes(post)) fault(`${person.name} is not qualified to hold this post`);
      else if (named.has(id)) fault(`${person.name} is already named for another post`);
      else if (lapsed !== null) fault(`${lapsed} of ${person.name} has lapsed or has no date`);
      else crew[post] = { id, name: person.name };
      named.add(id);
    }
    if (faults.length > 0) return { faults };
    const { place, powerSource } = input;
    return {
      fact: {
        type: "planned",
        aircraft: aircraft.id,
        place,
        ...(purpose === "return" ? { purpose } : {}),
        aircraftType: sharedType(type),
        typeSeal: seal,
        ...(aircraft.fitted.length > 0 ? { fitted: aircraft.fitted } : {}),
        ...(equipment.length > 0 ? { equipment } : {}),
        ...((await houseOf(directory)).body.inspectsDefects ? { inspectsDefects: true as const } : {}),
        order,
        powerSource,
        crew,
        ...(advice ? { orderAdvice: advice } : {}),
        ...(input.orderReason === undefined ? {} : { orderReason: input.orderReason }),
        ...(input.headingDeg === undefined ? {} : { headingDeg: input.headingDeg }),
        ...(input.elevationFt === undefined ? {} : { elevationFt: input.elevationFt }),
        ...(input.neighbours?.length ? { neighbours: input.neighbours } : {}),
      },
    };
  }

  /** Returns the facts of the allocated equipment, and adds a fault for each piece that cannot be used. */
  async #equipment(labels: readonly string[], faults: PlanFault[]): Promise<Equipment[]> {
    if (labels.length === 0) return [];
    const all = await this.#deps.equipment.list();
    const elsewhere = await this.#allocated();
    return labels.flatMap((label, i) => {
      const path = `equipment.${i}`;
      const found = all.find(({ entry }) => entry.id === label);
      const bar = found?.faults.find(barsUse);
      const other = elsewhere.get(label);
      if (!found) faults.push({ path, message: `the register has nothing with the label ${label}` });
      else if (labels.indexOf(label) !== i) faults.push({ path, message: `${label} is named twice` });
      else if (bar) faults.push({ path, message: `${label} ${faultWords(bar)}` });
      else if (other) {
        const message = `${label} is allocated to ${other.aircraft}, session ${other.code}: end that session first, or take another`;
        faults.push({ path, message });
      } else return [factsOf(found.entry.body)];
      return [];
    });
  }

  /** Returns the open session of each piece that one is allocated to, by label. */
  async #allocated(): Promise<Map<string, SessionRow>> {
    const { store, sessions } = this.#deps;
    const found = new Map<string, SessionRow>();
    for (const row of (await store.openSessions()).filter(({ id }) => !isRehearsalId(id)))
      for (const { facts } of (await sessions.get(row.id)).state.equipment ?? []) found.set(facts.id, row);
    return found;
  }
}
