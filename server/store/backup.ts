import { existsSync, renameSync, rmSync } from "node:fs";
import Database from "better-sqlite3";
import { replay } from "../sessions/replay.ts";
import { sha256OfBytes } from "../sha256.ts";
import { StartRefused } from "../start-refused.ts";
import { copyDatabase } from "./copy.ts";
import { SqliteEventStore } from "./sqlite-events.ts";

/** Contents of a finished backup. */
export interface Backup {
  sessions: number;
  events: number;
  pictures: number;
}

/**
 * Copies the database as it is at one moment, while a server may go on writing. Verifies the copy before it gets its
 * name: the file is sound, every session can be rebuilt with its hash chain intact, and every picture has its digest.
 * @throws StartRefused says what is wrong and what to do; no file is left then
 */
export async function backUp(file: string, into: string): Promise<Backup> {
  if (!existsSync(file)) throw new StartRefused(`there is no database ${file}: check CHOCKSIDE_DATA`);
  if (existsSync(into)) throw new StartRefused(`${into} exists already: name another file`);
  const part = `${into}.part`;
  rmSync(part, { force: true });
  try {
    copyDatabase(file, part);
    const backup = await prove(part);
    renameSync(part, into);
    return backup;
  } catch (error) {
    rmSync(part, { force: true });
    if (error instanceof StartRefused) throw error;
    throw new StartRefused(`no backup was made: ${(error as Error).message}`);
  }
}

/** @throws Error naming what is wrong */
async function prove(part: string): Promise<Backup> {
  const db = new Database(part);
  const found = db.pragma("integrity_check", { simple: true });
  const store = new SqliteEventStore(db);
  try {
    if (found !== "ok") throw new Error(`the copy is damaged: ${found}`);
    const rows = await store.sessions(Number.MAX_SAFE_INTEGER);
    for (const row of rows) await replay(store, row);
    const events = rows.reduce((sum, row) => sum + row.headSeq, 0);
    return { sessions: rows.length, events, pictures: provePictures(db) };
  } finally {
    await store.close();
  }
}

/**
 * Returns how many pictures the copy has.
 * @throws Error naming one whose bytes are not those of its digest
 */
function provePictures(db: Database.Database): number {
  // A database that no server of this version has opened yet has no such table.
  const there = db.prepare(`SELECT 1 FROM sqlite_master WHERE "name" = 'Picture'`).get();
  if (!there) return 0;
  let count = 0;
  const all = db.prepare<[], { sha256: string; bytes: Buffer }>(`SELECT "sha256", "bytes" FROM "Picture"`);
  for (const { sha256, bytes } of all.iterate()) {
    if (sha256OfBytes(bytes) !== sha256) throw new Error(`the picture ${sha256} is damaged`);
    count += 1;
  }
  return count;
}
