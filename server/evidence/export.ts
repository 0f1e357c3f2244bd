import { canonical } from "../../shared/evidence/canonical.ts";
import type { Manifest } from "../../shared/evidence/verify.ts";
import type { EventStore, SessionRow, StoredEvent } from "../store/events.ts";
import { CAUTION } from "./caution.ts";
import { csvHead, csvLine } from "./csv.ts";

export const EVIDENCE_FORMS = {
  ndjson: { media: "application/x-ndjson; charset=utf-8" },
  json: { media: "application/json; charset=utf-8" },
  csv: { media: "text/csv; charset=utf-8; header=present" },
} as const;
export type EvidenceForm = keyof typeof EVIDENCE_FORMS;

const PAGE = 500;

/** What the export holds: without it a chain cannot show that its tail was cut off. */
export function manifestOf(row: SessionRow, now: number): Manifest {
  return {
    format: "chockside-evidence-1",
    session: row.id,
    aircraft: row.aircraft,
    events: row.headSeq,
    head: row.headHash,
    exportedAt: new Date(now).toISOString(),
    caution: CAUTION,
  };
}

/** The session's record up to the row's head, piece by piece. NDJSON and JSON hold the stored bytes themselves. */
export async function* exportOf(
  store: EventStore,
  row: SessionRow,
  form: EvidenceForm,
  now: number,
): AsyncGenerator<string> {
  const manifest = canonical(manifestOf(row, now));
  switch (form) {
    case "ndjson":
      yield `${manifest}\n`;
      for await (const event of upTo(store, row)) yield `${event.body}\n`;
      return;
    case "json":
      yield `{"manifest":${manifest},"events":[\n`;
      for await (const event of upTo(store, row)) yield event.seq === 1 ? event.body : `,\n${event.body}`;
      yield "\n]}\n";
      return;
    case "csv":
      yield csvHead();
      for await (const event of upTo(store, row)) yield csvLine(event);
  }
}

async function* upTo(store: EventStore, { id, headSeq }: SessionRow): AsyncGenerator<StoredEvent> {
  for (let since = 0; since < headSeq; ) {
    const page = await store.read(id, since, Math.min(PAGE, headSeq - since));
    const last = page.at(-1);
    if (!last) return;
    yield* page;
    since = last.seq;
  }
}
