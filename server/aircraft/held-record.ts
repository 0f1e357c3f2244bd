import { evolveRecord } from "../../shared/aircraft/evolve.ts";
import type { AircraftRecord } from "../../shared/aircraft/record.ts";
import { type DefectLife, livesAfter } from "../../shared/defects/lives.ts";
import { genesis, type Sealed, seal } from "../../shared/evidence/chain.ts";
import { readSealedRecord } from "../../shared/evidence/read.ts";
import type { RecordEvent } from "../../shared/protocol/recordEvents.ts";
import type { Pseudonyms } from "../evidence/names.ts";
import { sha256 } from "../sha256.ts";
import { type EventStore, RECORD_STAGE, type SessionRow, StoreFailure } from "../store/events.ts";

const PAGE = 1_000;

/** An aircraft's record in memory, with the hash of its last event. */
export interface HeldRecord {
  record: AircraftRecord | null;
  /** Its defects from their writing to their closing, by number. */
  defects: readonly DefectLife[];
  headHash: string;
  /** Ids of the commands that were given to it, and the number of the event each led to. */
  answered: ReadonlyMap<string, number>;
}

/** The id of an aircraft's record. It is unlike every session's. */
export function recordId(aircraft: string): string {
  return `record-${sha256(`chockside aircraft ${aircraft}`).slice(0, 32)}`;
}

export function noRecord(aircraft: string): HeldRecord {
  return { record: null, defects: [], headHash: genesis(recordId(aircraft), sha256), answered: new Map() };
}

/**
 * Reads the events recorded after those held, and checks their chain.
 * @throws StoreFailure when they cannot be read, or do not continue what is held
 */
export async function readOnRecord(
  store: EventStore,
  aircraft: string,
  before: HeldRecord,
  names: Pseudonyms,
): Promise<HeldRecord> {
  let held = before;
  for (;;) {
    const page = await store.read(recordId(aircraft), held.record?.seq ?? 0, PAGE);
    await names.loadFor(page.map((e) => e.body));
    for (const { seq, body, hash } of page) {
      try {
        const { event, prev } = readSealedRecord(names.reveal(body));
        if (prev !== held.headHash || hash !== sha256(body)) throw new Error("its chain is broken");
        held = after(held, event, hash);
      } catch (error) {
        throw new StoreFailure(`the record of ${aircraft}, event ${seq}: ${(error as Error).message}`, {
          cause: error,
        });
      }
    }
    if (page.length < PAGE) return held;
  }
}

export function after(held: HeldRecord, event: RecordEvent, hash: string): HeldRecord {
  const { command } = event;
  const record = evolveRecord(held.record, event);
  return {
    record,
    defects: livesAfter(held.defects, held.record, event, record),
    headHash: hash,
    answered: command === null ? held.answered : new Map([...held.answered, [command, event.seq]]),
  };
}

export function sealRecord(event: RecordEvent, prev: string, names: Pseudonyms): Sealed {
  return seal(names.pseudonymise(event), prev, sha256);
}

/**
 * Returns the record's row among the sessions' rows. Its stage keeps it out of every list of sessions, and it is never
 * open: `closedAt` is set from the start.
 */
export function rowOfRecord(record: AircraftRecord, headHash: string, createdAt: number): SessionRow {
  return {
    id: record.id,
    code: record.id,
    planCommand: record.id,
    aircraft: record.aircraft,
    typeId: "",
    typeVersion: 0,
    typeName: "",
    place: "",
    stage: RECORD_STAGE,
    needs: record.items.filter((i) => i.item.is !== "defect").length,
    createdAt,
    closedAt: createdAt,
    headSeq: record.seq,
    headHash,
    headAt: record.at,
  };
}
