import { contributionOf } from "../../shared/aircraft/contribution.ts";
import { evolveRecord } from "../../shared/aircraft/evolve.ts";
import type { AircraftRecord } from "../../shared/aircraft/record.ts";
import { canonical } from "../../shared/evidence/canonical.ts";
import { type RecordEvent, type RecordFact, recordEventSchema } from "../../shared/protocol/recordEvents.ts";
import { isOver, type SessionState } from "../../shared/session/state.ts";

/** An aircraft's record in memory, with every event of it. */
export class RecordLog {
  record: AircraftRecord;
  readonly events: RecordEvent[] = [];
  readonly #aircraft: string;

  constructor(aircraft: string, engines: number, now: number) {
    this.#aircraft = aircraft;
    this.record = evolveRecord(null, this.#event(1, { type: "opened", aircraft, engines }, now));
  }

  #event(seq: number, fact: RecordFact, at: number): RecordEvent {
    const event = {
      v: 1,
      session: `record-${this.#aircraft}`,
      seq,
      at,
      actor: { kind: "system" },
      command: null,
      digest: null,
      clientAt: null,
      cause: null,
      fact,
    };
    const parsed = recordEventSchema.parse(JSON.parse(canonical(event)));
    this.events.push(parsed);
    return parsed;
  }

  add(fact: RecordFact, now: number): void {
    this.record = evolveRecord(this.record, this.#event(this.record.seq + 1, fact, now));
  }

  /** Takes over everything that a session adds to the record now. */
  takes(state: SessionState, now: number): void {
    const contribution = contributionOf(state);
    const told = { session: state.id, through: state.seq, over: isOver(state), contribution };
    this.add({ type: "contributed", ...told }, now);
  }
}
