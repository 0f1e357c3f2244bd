import { createHash } from "node:crypto";
import { canonical } from "../../shared/evidence/canonical.ts";
import { pseudonymsIn } from "../../shared/evidence/pseudonyms.ts";
import { endLine } from "../../shared/evidence/signedExport.ts";
import type { Claim, SignedManifest } from "../../shared/evidence/verify.ts";
import type { EventStore, SessionRow } from "../store/events.ts";
import { PROGRAM } from "../version.ts";
import { cautionOf } from "./caution.ts";
import { csvHead, csvLine, signedRow } from "./csv.ts";
import { firstOf } from "./leaves.ts";
import type { Names } from "./names.ts";
import type { Notary } from "./notary.ts";
import { noteTools } from "./note-tools.ts";

export const EVIDENCE_FORMS = {
  ndjson: { media: "application/x-ndjson; charset=utf-8" },
  json: { media: "application/json; charset=utf-8" },
  csv: { media: "text/csv; charset=utf-8; header=present" },
} as const;
export type EvidenceForm = keyof typeof EVIDENCE_FORMS;

export interface ExportDeps {
  store: EventStore;
  notary: Notary;
  names: Names;
}

/** Returns the claim to verify: the session's number of events and head hash. */
export function claimOf(row: SessionRow): Claim {
  return { session: row.id, aircraft: row.aircraft, events: row.headSeq, head: row.headHash };
}

/** Returns the manifest with every checkpoint up to the row's head. Signs the head's checkpoint if there is none. */
async function manifestOf(
  { store, notary, names }: ExportDeps,
  row: SessionRow,
  now: number,
): Promise<SignedManifest> {
  const whole = await notary.at(row.id, row.headSeq);
  const earlier = (await store.checkpoints(row.id)).filter((c) => c.size < row.headSeq);
  const checkpoints = [...earlier, whole];
  return {
    format: "chockside-evidence-2",
    ...claimOf(row),
    keys: [...new Set([notary.signer.publicHex, ...checkpoints.map((c) => c.publicKey)])],
    names: names.openings(await pseudonymsOf(store, names, row)),
    checkpoints: checkpoints.map((c) => c.note),
    exportedAt: new Date(now).toISOString(),
    program: PROGRAM,
    caution: cautionOf(row.aircraft),
  };
}

/**
 * Yields the session's record up to the row's head, in pieces. NDJSON and JSON contain the stored bytes. Each format
 * ends with a signature over every byte before it.
 */
export async function* exportOf(
  deps: ExportDeps,
  row: SessionRow,
  form: EvidenceForm,
  now: number,
): AsyncGenerator<string> {
  const events = firstOf(deps.store, row.id, row.headSeq);
  const digest = createHash("sha256");
  const signed = (text: string) => {
    digest.update(text, "utf8");
    return text;
  };
  const end = () => endLine(digest.digest(), deps.notary.signer, noteTools);
  if (form === "csv") {
    yield signed(csvHead(row.aircraft));
    await pseudonymsOf(deps.store, deps.names, row);
    for await (const event of events) yield signed(csvLine(event, deps.names));
    yield signedRow(end());
    return;
  }
  const manifest = canonical(await manifestOf(deps, row, now));
  if (form === "json") {
    yield signed(`{"manifest":${manifest},"events":[\n`);
    for await (const event of events) yield signed(event.seq === 1 ? event.body : `,\n${event.body}`);
    yield signed("\n]");
    yield `,${end().slice(1)}\n`;
    return;
  }
  yield signed(`${manifest}\n`);
  for await (const event of events) yield signed(`${event.body}\n`);
  yield `${end()}\n`;
}

/** Returns the pseudonyms in a record, after loading their names. */
async function pseudonymsOf(store: EventStore, names: Names, row: SessionRow): Promise<Set<string>> {
  const pseudonyms = new Set<string>();
  for await (const { body } of firstOf(store, row.id, row.headSeq))
    for (const pseudonym of pseudonymsIn(body)) pseudonyms.add(pseudonym);
  await names.loadFor([...pseudonyms].map((pseudonym) => JSON.stringify(pseudonym)));
  return pseudonyms;
}
