import { existsSync, renameSync, rmSync } from "node:fs";
import Database from "better-sqlite3";
import { replay } from "../sessions/replay.ts";
import { StartRefused } from "../start-refused.ts";
import { copyDatabase } from "./copy.ts";
import { SqliteEventStore } from "./sqlite-events.ts";

/** Contents of a finished backup. */
export interface Backup {
  sessions: number;
  events: number;
}

/**
 * Copies the database as it is at one moment, while a server may go on writing. Verifies the copy before it gets its
 * name: the file is sound, and every session can be rebuilt with its hash chain intact.
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
    return { sessions: rows.length, events: rows.reduce((sum, row) => sum + row.headSeq, 0) };
  } finally {
    await store.close();
  }
}
