import { signNote } from "../../shared/evidence/note.ts";
import { noteTools } from "../evidence/note-tools.ts";
import type { EvidenceSigner } from "../evidence/signer.ts";
import { erase } from "../personal/erase.ts";
import type { Directory } from "../store/directory.ts";
import type { EventStore, RemovalRecord } from "../store/events.ts";
import type { Expired } from "./expired.ts";
import type { ExpiredPicture } from "./expired-pictures.ts";
import type { Periods } from "./rule.ts";

export interface RemovalDeps {
  store: EventStore;
  directory: Directory;
  signer: EvidenceSigner;
  periods: Periods;
}

/**
 * Removes what is past its period, and stores a signed record of the removal. For a session that record has the
 * number of events and the last hash, so that a copy kept elsewhere can be recognised.
 * @throws StartRefused when a person cannot be erased yet
 */
export async function remove(deps: RemovalDeps, one: Expired, now: number): Promise<RemovalRecord> {
  const { store, directory, signer, periods } = deps;
  const id = "session" in one ? one.session.id : one.person.id;
  const about =
    "session" in one
      ? [
          `session ${id}`,
          `aircraft ${one.session.aircraft}`,
          `events ${one.session.headSeq}`,
          `head ${one.session.headHash}`,
          `ended ${day(one.session.closedAt ?? one.session.headAt)}`,
        ]
      : [`person ${id}`];
  const rule = `kept ${periods[one.kept]} months as ${one.kept}, to ${day(one.until)}`;
  const removal = removalOf(id, [...about, rule], signer, now);
  if ("session" in one) await store.remove(id, removal);
  else {
    await erase(store, directory, one.person);
    await store.addRemoval(removal);
  }
  return removal;
}

/**
 * Removes the bytes of a picture. One that a record names gets a signed record of its removal; its digest stays in the
 * evidence.
 */
export async function removePicture(
  { store, directory, signer, periods }: RemovalDeps,
  { aircraft, until, ...key }: ExpiredPicture,
  now: number,
): Promise<void> {
  const { record, no, sha256 } = key;
  if (until !== null) {
    const rule = `kept ${periods.pictures} months as pictures, to ${day(until)}`;
    const about = [`picture ${sha256}`, `aircraft ${aircraft}`, `record ${record}`, `defect ${no}`, rule];
    // It may be sent and removed again.
    await store.addRemoval(removalOf(`${record} ${no} ${sha256} ${now}`, about, signer, now));
  }
  await directory.pictures.forget(key);
}

const day = (at: number): string => new Date(at).toISOString();

function removalOf(id: string, about: readonly string[], signer: EvidenceSigner, now: number): RemovalRecord {
  const lines = ["chockside/removal", ...about, `time ${day(now)}`];
  const note = signNote(lines.map((line) => `${line}\n`).join(""), signer, noteTools.hash);
  return { id, at: now, note, publicKey: signer.publicHex };
}
