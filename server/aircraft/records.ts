import { contributionOf } from "../../shared/aircraft/contribution.ts";
import { decideRecord, type RecordPerson } from "../../shared/aircraft/decide.ts";
import { evolveRecord } from "../../shared/aircraft/evolve.ts";
import { isNews } from "../../shared/aircraft/know.ts";
import { wordsOf } from "../../shared/aircraft/locate.ts";
import type { AircraftRecord } from "../../shared/aircraft/record.ts";
import { standingFor } from "../../shared/aircraft/standingFor.ts";
import type { DefectLife } from "../../shared/defects/lives.ts";
import { type Actor, EVENT_VERSION } from "../../shared/protocol/events.ts";
import type { RecordAction, RecordEvent, RecordFact } from "../../shared/protocol/recordEvents.ts";
import type { CommandResult } from "../../shared/protocol/refusal.ts";
import type { Standing } from "../../shared/protocol/standing.ts";
import type { Attribution } from "../../shared/session/attribution.ts";
import { isOver, type SessionState } from "../../shared/session/state.ts";
import type { Clock } from "../clock.ts";
import type { Pseudonyms } from "../evidence/names.ts";
import { OneAtATimeByKey } from "../one-at-a-time.ts";
import { ConcurrencyError, type EventStore } from "../store/events.ts";
import {
  after,
  type HeldRecord,
  noRecord,
  readOnRecord,
  recordId,
  rowOfRecord,
  sealRecord,
} from "./held-record.ts";
import { isRepeat, PARTS } from "./repeat.ts";

/** Attempts to append when other servers append first. */
const ATTEMPTS = 50;

export interface AircraftRecordsDeps {
  store: EventStore;
  clock: Clock;
  names: Pseudonyms;
  /** Returns whether the house asks that another person inspects a mended defect. */
  inspectsDefects(): Promise<boolean>;
  log: { error(detail: object, message: string): void };
}

interface Origin {
  actor: Actor;
  command: string | null;
}

const SERVER: Origin = { actor: { kind: "system" }, command: null };

/**
 * The records of all aircraft: what stands at each of them outlives every session. Sessions contribute to their
 * aircraft's record after their own events are durable, and are told what comes from elsewhere.
 */
export class AircraftRecords {
  readonly #deps: AircraftRecordsDeps;
  readonly #held = new Map<string, HeldRecord>();
  /** Work on each aircraft's record, one after another. */
  readonly #turns = new OneAtATimeByKey();
  /** Each open session as it was when it contributed last. */
  readonly #contributed = new Map<string, SessionState>();
  /** Number of the record up to which a session was found to know everything. */
  readonly #known = new Map<string, number>();
  #moved: (aircraft: string) => void = () => {};
  #changed: () => void = () => {};
  /** Each item at each aircraft, by its number and its words of where it burns, as the ramp was told last. */
  readonly #shown = new Map<string, string>();

  constructor(deps: AircraftRecordsDeps) {
    this.#deps = deps;
  }

  /**
   * Sets the listeners.
   * @param moved called with an aircraft whose record has more events
   * @param changed called when something came to stand at an aircraft, or was ended
   */
  listen(moved: (aircraft: string) => void, changed: () => void): void {
    this.#moved = moved;
    this.#changed = changed;
  }

  #tell(aircraft: string): void {
    this.#moved(aircraft);
    const items = (this.#held.get(aircraft)?.record?.items ?? [])
      .map(({ no, item }) => `${no} ${wordsOf(item).length}`)
      .join();
    if ((this.#shown.get(aircraft) ?? "") === items) return;
    this.#shown.set(aircraft, items);
    this.#changed();
  }

  /**
   * Returns an aircraft's record as stored now; null when nothing was ever recorded.
   * @throws StoreFailure
   */
  read(aircraft: string): Promise<AircraftRecord | null> {
    return this.#turns.run(aircraft, async () => (await this.#readOn(aircraft)).record);
  }

  /**
   * Returns the aircraft's defects from their writing to their closing, by number.
   * @throws StoreFailure
   */
  defects(aircraft: string): Promise<readonly DefectLife[]> {
    return this.#turns.run(aircraft, async () => (await this.#readOn(aircraft)).defects);
  }

  /** Returns what the session is to be told, from memory; undefined when it knows everything. */
  news(state: SessionState): Standing | undefined {
    const record = this.#held.get(state.aircraft)?.record;
    if (!record || this.#known.get(state.id) === record.seq) return undefined;
    const standing = standingFor(record, state.id);
    if (isNews(state, standing)) return standing;
    this.#known.set(state.id, record.seq);
    return undefined;
  }

  /**
   * Takes over what a session changed. Its own events are durable before, so that a crash in between loses nothing: the
   * session contributes again when it is next loaded.
   */
  async contribute(state: SessionState): Promise<void> {
    const before = this.#contributed.get(state.id);
    if (before && PARTS.every((part) => before[part] === state[part])) return;
    const over = isOver(state);
    const fact: RecordFact = {
      type: "contributed",
      session: state.id,
      through: state.seq,
      over,
      contribution: contributionOf(state),
    };
    await this.#turns.run(state.aircraft, () =>
      this.#append(state.aircraft, state.engines.length, SERVER, () => [fact]),
    );
    if (over) this.#forget(state.id);
    else this.#contributed.set(state.id, state);
    this.#tell(state.aircraft);
  }

  /**
   * Decides a person's action on an aircraft's record. Resolves once it is durable.
   * @throws StoreFailure
   */
  async act(
    aircraft: { id: string; engines: number },
    action: RecordAction,
    person: RecordPerson & { device: string },
    command: string,
  ): Promise<CommandResult> {
    const { id, name, device } = person;
    // Read for an end only: a stop waits for nothing of the house.
    const inspectsDefects = action.type === "end" && (await this.#deps.inspectsDefects());
    const origin: Origin = { actor: { kind: "person", id, name, post: null, device }, command };
    const result = await this.#turns.run(aircraft.id, async (): Promise<CommandResult> => {
      let refusal: CommandResult | null = null;
      const { record, answered } = await this.#append(
        aircraft.id,
        aircraft.engines,
        origin,
        (record, { answered: known }) => {
          refusal = null;
          if (known.has(command)) return [];
          const now = this.#deps.clock.now();
          const verdict = decideRecord(record, action, person, { now, inspectsDefects });
          if (verdict.refusal) refusal = { status: "refused", seq: null, refusal: verdict.refusal };
          return verdict.facts;
        },
      );
      return refusal ?? { status: "accepted", seq: answered.get(command) ?? record?.seq ?? 0 };
    });
    if (result.status === "accepted") this.#tell(aircraft.id);
    return result;
  }

  /**
   * Records what a person's command leads to at the aircraft's defects. Resolves once it is durable.
   * @param decide may be asked again when another server was first; it returns nothing where nothing is to be recorded
   * @param before runs before anything is recorded
   * @throws StoreFailure
   */
  async atDefects(
    aircraft: { id: string; engines: number },
    { id, name, device }: { id: string; name: string; device: string },
    command: string,
    decide: (lives: readonly DefectLife[], by: Attribution) => RecordFact[],
    before: (record: string) => Promise<void> = async () => {},
  ): Promise<void> {
    const origin: Origin = { actor: { kind: "person", id, name, post: null, device }, command };
    await this.#turns.run(aircraft.id, () =>
      this.#append(
        aircraft.id,
        aircraft.engines,
        origin,
        (record, { answered, defects }) => {
          if (answered.has(command)) return [];
          const by = { at: this.#deps.clock.now(), seq: record.seq + 1, post: null, name, seenFrom: null };
          return decide(defects, by);
        },
        before,
      ),
    );
    this.#tell(aircraft.id);
  }

  /** Reads on what other servers recorded. Calls the listener when there was something. */
  async follow(aircraft: string): Promise<void> {
    const before = this.#held.get(aircraft)?.record?.seq ?? 0;
    const record = await this.read(aircraft);
    if ((record?.seq ?? 0) > before) this.#tell(aircraft);
  }

  #forget(session: string): void {
    this.#contributed.delete(session);
    this.#known.delete(session);
  }

  async #append(
    aircraft: string,
    engines: number,
    origin: Origin,
    work: (record: AircraftRecord, held: HeldRecord) => RecordFact[],
    prepare: (record: string) => Promise<void> = async () => {},
  ): Promise<HeldRecord> {
    const { store, names } = this.#deps;
    for (let attempt = 1; ; attempt += 1) {
      const before = this.#held.get(aircraft) ?? (await this.#readOn(aircraft));
      let held = before;
      const events: { event: RecordEvent; body: string; hash: string }[] = [];
      const add = (fact: RecordFact, from: Origin) => {
        const event = this.#event(aircraft, held, fact, from);
        const next = evolveRecord(held.record, event);
        if (held.record && fact.type === "contributed" && isRepeat(held.record, next)) return;
        const { body, hash } = sealRecord(event, held.headHash, names);
        events.push({ event, body, hash });
        held = after(held, event, hash);
      };
      if (held.record === null) add({ type: "opened", aircraft, engines }, SERVER);
      const { record } = held;
      if (record === null) throw new Error("a record that was opened is there");
      for (const fact of work(record, held)) add(fact, origin);
      if (events.length === 0 || held.record === null) return before;
      const stored = events.map(({ event, body, hash }) => {
        const { seq, at, command, fact } = event;
        return { seq, at, command, type: fact.type, body, hash };
      });
      await prepare(held.record.id);
      try {
        const row = rowOfRecord(held.record, held.headHash, stored[0]?.at ?? 0);
        await store.append({ expected: before.record?.seq ?? 0, events: stored, row });
        this.#held.set(aircraft, held);
        return held;
      } catch (error) {
        if (!(error instanceof ConcurrencyError) || attempt >= ATTEMPTS) throw error;
        await this.#readOn(aircraft);
      }
    }
  }

  #event(
    aircraft: string,
    { record }: HeldRecord,
    fact: RecordFact,
    { actor, command }: Origin,
  ): RecordEvent {
    return {
      v: EVENT_VERSION,
      session: recordId(aircraft),
      seq: (record?.seq ?? 0) + 1,
      at: Math.max(this.#deps.clock.now(), record?.at ?? 0),
      actor,
      command,
      digest: null,
      clientAt: null,
      cause: null,
      fact,
    };
  }

  async #readOn(aircraft: string): Promise<HeldRecord> {
    const { store, names } = this.#deps;
    const held = await readOnRecord(store, aircraft, this.#held.get(aircraft) ?? noRecord(aircraft), names);
    this.#held.set(aircraft, held);
    return held;
  }
}
