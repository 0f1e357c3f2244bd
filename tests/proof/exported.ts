import { type EvidenceForm, exportOf } from "../../server/evidence/export.ts";
import { Names } from "../../server/evidence/names.ts";
import { Notary } from "../../server/evidence/notary.ts";
import type { EvidenceSigner } from "../../server/evidence/signer.ts";
import { randomIds } from "../../server/ids.ts";
import { rowOf } from "../../server/sessions/row.ts";
import { MemoryDirectory } from "../../server/store/memory-directory.ts";
import { MemoryEventStore } from "../../server/store/memory-events.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import { evolve } from "../../shared/session/evolve.ts";
import type { SessionState } from "../../shared/session/state.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import { testSigner } from "../http/test-signer.ts";
import { FOUR } from "../spec/aircraft.ts";
import { exported, START, sha256 } from "../spec/given.ts";

/** The smallest possible type, so that every byte of an export can be tried. */
export const SMALL: AircraftType = {
  ...FOUR,
  engines: FOUR.engines.slice(0, 1),
  defaultOrder: [1],
  checks: [],
  warmUp: [],
  drills: [],
  gauges: FOUR.gauges.slice(0, 1),
};

/** Puts a session's events into a store, one append for each. */
export async function stored(log: readonly SessionEvent[], store = new MemoryEventStore()) {
  let state: SessionState | null = null;
  for (const [i, body] of exported(log).lines.entries()) {
    const event = log[i] as SessionEvent;
    state = evolve(state, event);
    const { seq, at, command, fact } = event;
    const hash = sha256(body);
    const base = { code: `T-${event.session}`, planCommand: `plan ${event.session}`, createdAt: START };
    const row = rowOf(base, state, hash);
    await store.append({ expected: i, events: [{ seq, at, command, type: fact.type, body, hash }], row });
  }
  return store;
}

/** Returns the session's export, with a checkpoint of its first two events and one of all. */
export async function exportText(
  log: readonly SessionEvent[],
  signer: EvidenceSigner = testSigner,
  form: EvidenceForm = "ndjson",
): Promise<string> {
  const store = await stored(log);
  const notary = new Notary({ store, signer, clock: { now: () => START + 60_000 }, log: { error() {} } });
  const session = log[0]?.session ?? "";
  await notary.at(session, 2);
  const row = await store.session(session);
  if (!row) throw new Error("not stored");
  const parts: string[] = [];
  const names = await Names.open(new MemoryDirectory().personal, [], randomIds.salt);
  for await (const part of exportOf({ store, notary, names }, row, form, START + 60_000)) parts.push(part);
  return parts.join("");
}
