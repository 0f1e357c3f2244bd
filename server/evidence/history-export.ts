import { createHash } from "node:crypto";
import { canonical } from "../../shared/evidence/canonical.ts";
import type { HistoryManifest } from "../../shared/evidence/history.ts";
import { endLine } from "../../shared/evidence/signedExport.ts";
import { recordId } from "../aircraft/held-record.ts";
import type { SessionRow } from "../store/events.ts";
import { PROGRAM } from "../version.ts";
import { cautionOf } from "./caution.ts";
import { type ExportDeps, exportOf } from "./export.ts";
import { noteTools } from "./note-tools.ts";

/**
 * Yields everything that is kept of an aircraft as one signed file, in pieces: a manifest, the export of each record as
 * it would stand in a file of its own, and a signature over every byte before it. A record that grows meanwhile ends
 * where it ended when the export began.
 */
export async function* historyExport(
  deps: ExportDeps,
  aircraft: string,
  now: number,
): AsyncGenerator<string> {
  const rows = await rowsOf(deps, aircraft);
  const digest = createHash("sha256");
  const signed = (text: string) => {
    digest.update(text, "utf8");
    return text;
  };
  const manifest: HistoryManifest = {
    format: "chockside-history-1",
    aircraft,
    records: rows.map(({ id, headSeq, headHash }) => ({ session: id, events: headSeq, head: headHash })),
    key: deps.notary.signer.publicHex,
    exportedAt: new Date(now).toISOString(),
    program: PROGRAM,
    caution: cautionOf(aircraft),
  };
  yield signed(`${canonical(manifest)}\n`);
  for (const row of rows) for await (const part of exportOf(deps, row, "ndjson", now)) yield signed(part);
  yield `${endLine(digest.digest(), deps.notary.signer, noteTools)}\n`;
}

/** Returns the rows of the aircraft's own record, if it has one, and of its sessions, oldest first. */
async function rowsOf({ store }: ExportDeps, aircraft: string): Promise<SessionRow[]> {
  const own = await store.session(recordId(aircraft));
  const all = await store.sessionsOf(aircraft, Number.MAX_SAFE_INTEGER);
  return [...(own ? [own] : []), ...all.reverse()];
}
