import { personLockoutKey } from "../auth/lockout.ts";
import { firstOf } from "../evidence/leaves.ts";
import { StartRefused } from "../start-refused.ts";
import type { Directory, PersonRecord } from "../store/directory.ts";
import type { EventStore } from "../store/events.ts";
import { tracesOf } from "./personal-data.ts";

/** An event that still contains a person's name, for a person to review. */
export interface RemainingName {
  session: string;
  /** Event number. */
  seq: number;
}

/**
 * Erases a person: name, PIN, qualifications, sign-ins, and the salt that links the name to its pseudonym in the
 * evidence. No byte of the evidence changes. The id stays there, without a name.
 * @returns events that contain the name in clear: in free text, or sealed before pseudonyms existed
 * @throws StartRefused while a session they take part in is not over
 */
export async function erase(
  store: EventStore,
  directory: Directory,
  person: PersonRecord,
): Promise<RemainingName[]> {
  for await (const { session, aircraft, closed } of tracesOf(store, person.id))
    if (!closed)
      throw new StartRefused(
        `${person.handle} takes part in session ${session} of ${aircraft}: close or abandon it first`,
      );
  const names = (await directory.personal.names()).filter((n) => n.personId === person.id);
  await directory.personal.erase(person.id, [personLockoutKey(person.handle)]);
  return remainingNames(store, [person.name, ...names.map((n) => n.name)]);
}

async function remainingNames(store: EventStore, names: readonly string[]): Promise<RemainingName[]> {
  // JSON escapes as in the stored bytes, without quotes, because the name may stand within a sentence.
  const written = [...new Set(names)].map((name) => JSON.stringify(name).slice(1, -1));
  const left: RemainingName[] = [];
  for (const { id, headSeq } of [
    ...(await store.sessions(Number.MAX_SAFE_INTEGER)),
    ...(await store.rehearsals(Number.MAX_SAFE_INTEGER)),
    ...(await store.records()),
  ])
    for await (const { seq, body } of firstOf(store, id, headSeq))
      if (written.some((name) => body.includes(name))) left.push({ session: id, seq });
  return left;
}
