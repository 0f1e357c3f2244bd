import { signNote } from "../../shared/evidence/note.ts";
import { noteTools } from "../evidence/note-tools.ts";
import type { EvidenceSigner } from "../evidence/signer.ts";
import { erase } from "../personal/erase.ts";
import type { Directory } from "../store/directory.ts";
import type { EventStore, RemovalRecord } from "../store/events.ts";
import type { Expired } from "./expired.ts";
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
  const day = (at: number) => new Date(at).toISOString();
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
  const text = ["chockside/removal", ...about, rule, `time ${day(now)}`].map((line) => `${line}\n`).join("");
  const note = signNote(text, signer, noteTools.hash);
  const removal = { id, at: now, note, publicKey: signer.publicHex };
  if ("session" in one) await store.remove(id, removal);
  else {
    await erase(store, directory, one.person);
    await store.addRemoval(removal);
  }
  return removal;
}
