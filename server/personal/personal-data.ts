import { readSealed, readSealedRecord } from "../../shared/evidence/read.ts";
import { firstOf } from "../evidence/leaves.ts";
import type { Directory, PersonRecord } from "../store/directory.ts";
import { type EventStore, RECORD_STAGE } from "../store/events.ts";

/** No limit: every session is read. */
const ALL = Number.MAX_SAFE_INTEGER;

/** A person's events in one session. */
export interface Traces {
  session: string;
  aircraft: string;
  place: string;
  closed: boolean;
  /** Server time of the last of them. */
  lastAt: number;
  /** Events that the person caused or that name them by id. They contain pseudonyms, not names. */
  events: unknown[];
}

/** Yields every session in which the person acted, or whose events contain their id. */
export async function* tracesOf(store: EventStore, personId: string): AsyncGenerator<Traces> {
  const all = [...(await store.sessions(ALL)), ...(await store.rehearsals(ALL)), ...(await store.records())];
  for (const row of all) {
    const read = row.stage === RECORD_STAGE ? readSealedRecord : readSealed;
    const events: unknown[] = [];
    let lastAt = 0;
    for await (const { body } of firstOf(store, row.id, row.headSeq)) {
      const { event } = read(body);
      const { actor, fact } = event;
      const did = actor.kind === "person" && actor.id === personId;
      if (!did && !namesPerson(fact, personId)) continue;
      const { seq, at, clientAt } = event;
      lastAt = at;
      const as = did ? { post: actor.post, device: actor.device } : null;
      const what = fact.type === "planned" ? { ...fact, aircraftType: fact.aircraftType.id } : fact;
      events.push({ seq, at: new Date(at).toISOString(), clientAt, as, what });
    }
    const { id: session, aircraft, place, closedAt } = row;
    if (events.length > 0) yield { session, aircraft, place, closed: closedAt !== null, lastAt, events };
  }
}

/** Returns all data about one person, except the hashes of their PIN and tokens. */
export async function personalDataOf(store: EventStore, directory: Directory, person: PersonRecord) {
  const { pinHash: _pin, ...record } = person;
  const names = (await directory.personal.names()).filter((n) => n.personId === person.id);
  const signIns = await directory.personal.signIns(person.id);
  const passkeys = (await directory.passkeys.of(person.id)).map(({ publicKey: _key, ...made }) => made);
  const pictures = (await directory.pictures.rows()).filter((p) => p.personId === person.id);
  const sessions: Traces[] = [];
  for await (const traces of tracesOf(store, person.id)) sessions.push(traces);
  return {
    person: record,
    names: names.map((n) => n.name),
    signIns: signIns.map(({ tokenHash: _token, ...signIn }) => signIn),
    passkeys,
    currencies: own(await directory.currencies.dates(), person.id),
    lastStarts: own(await directory.currencies.lastStarts(), person.id),
    register: await directory.register.madeBy(person.id),
    pictures: pictures.map(({ record, no, sha256, at, media, length }) => ({
      ...{ record, defect: no, sha256, media, length },
      at: new Date(at).toISOString(),
    })),
    sessions,
  };
}

function own<T extends { personId: string }>(rows: readonly T[], id: string): T[] {
  return rows.filter((row) => row.personId === id);
}

/** Returns true when the fact contains the person's id, such as in the plan's crew or in the offer of a post. */
function namesPerson(fact: unknown, personId: string): boolean {
  if (typeof fact !== "object" || fact === null) return fact === personId;
  return Object.entries(fact).some(([key, v]) => key !== "aircraftType" && namesPerson(v, personId));
}
