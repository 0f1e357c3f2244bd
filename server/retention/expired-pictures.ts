import { noRecord, readOnRecord } from "../aircraft/held-record.ts";
import { noPseudonyms } from "../evidence/names.ts";
import type { EventStore } from "../store/events.ts";
import type { PictureKey, PictureStore } from "../store/pictures.ts";
import { keptUntil } from "./rule.ts";

/** Bytes that no record names are left alone for this time: they may be on their way into one. Milliseconds. */
const ON_ITS_WAY_MS = 3_600_000;

/** A picture whose bytes are removed. */
export interface ExpiredPicture extends PictureKey {
  aircraft: string;
  /** The end of its retention period; null for bytes that are left over: no record names them, or it says that they are removed. */
  until: number | null;
}

/** Returns the pictures whose defects were closed for longer than the period, and bytes that are left over. */
export async function expiredPictures(
  store: EventStore,
  pictures: PictureStore,
  months: number,
  now: number,
): Promise<ExpiredPicture[]> {
  const found: ExpiredPicture[] = [];
  for (const { id, aircraft } of await store.records()) {
    const rows = await pictures.rows(id);
    if (rows.length === 0) continue;
    const { defects } = await readOnRecord(store, aircraft, noRecord(aircraft), noPseudonyms);
    for (const { record, no, sha256, at } of rows) {
      const life = defects.find((d) => d.no === no);
      const named = life?.pictures.some((p) => p.sha256 === sha256 && p.removed === null);
      if (!life || !named) {
        if (at + ON_ITS_WAY_MS <= now) found.push({ record, no, sha256, aircraft, until: null });
        continue;
      }
      if (life.closed === null) continue;
      const until = keptUntil(Math.max(life.closed.at, at), months);
      if (until <= now) found.push({ record, no, sha256, aircraft, until });
    }
  }
  return found;
}
