import { existsSync, mkdtempSync, readFileSync, renameSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "better-sqlite3";
import { afterEach, beforeEach, expect, it } from "vitest";
import { StoreFailure } from "../../server/store/events.ts";
import { openDatabase } from "../../server/store/open.ts";
import { SqliteEventStore } from "../../server/store/sqlite-events.ts";
import { SqliteThread } from "../../server/store/sqlite-thread.ts";
import { append } from "./contract.ts";

let folder: string;
let file: string;
let store: SqliteEventStore;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "chockside-thread-"));
  file = join(folder, "chockside.db");
  store = new SqliteEventStore(openDatabase(file, 1), new SqliteThread(file));
});
afterEach(async () => {
  await store.close();
  rmSync(folder, { recursive: true, force: true });
});

/**
 * Returns the number of transactions in the write-ahead log. Source: SQLite, "Database File Format", section 4.1.
 * Frames follow a header of 32 bytes; each has 24 bytes and a page. Bytes 4 to 7 of a frame are not zero in the last
 * one of a commit. A frame counts while its salts (bytes 8 to 15) equal the header's (its bytes 16 to 23).
 */
function commits(): number {
  const log = readFileSync(`${file}-wal`);
  const step = 24 + log.readUInt32BE(8);
  const salts = log.subarray(16, 24);
  let count = 0;
  for (let at = 32; at + step <= log.length; at += step)
    if (salts.equals(log.subarray(at + 8, at + 16)) && log.readUInt32BE(at + 4) !== 0) count += 1;
  return count;
}

/** Resolves after all work that is ready has run. */
const turn = () => new Promise<void>((done) => setImmediate(done));

it("[STO-16] while the file is locked the server hears, reads and answers; what came meanwhile shares one flush", async () => {
  await store.append(append("first", 0));
  const before = commits();
  const other = new Database(file);
  other.exec("BEGIN IMMEDIATE");
  let ended = 0;
  const all: Promise<void>[] = [];
  for (let i = 0; i < 30; i += 1) {
    all.push(
      store.append(append(`s${i}`, 0, 2)).then(() => {
        ended += 1;
      }),
    );
    await turn();
    expect((await store.session("first"))?.headSeq).toBe(1);
  }
  expect(ended).toBe(0);
  other.exec("ROLLBACK");
  await Promise.all(all);
  expect(ended).toBe(30);
  // One for the append under way when the others came, and one for the others.
  expect(commits() - before).toBeLessThanOrEqual(2);
  expect(other.prepare(`SELECT count(*) FROM "Event"`).pluck().get()).toBe(61);
  other.close();
});

it("[STO-17] a thread that ends fails its pending writes, and the next write starts another", async () => {
  const away = join(folder, "away");
  await store.close();
  for (const end of ["", "-wal", "-shm"]) if (existsSync(file + end)) renameSync(file + end, away + end);
  const thread = new SqliteThread(file);
  const reader = new SqliteEventStore(new Database(away), thread);
  const given = await Promise.allSettled([reader.append(append("a", 0)), reader.append(append("b", 0))]);
  for (const one of given) expect(one).toMatchObject({ reason: expect.any(StoreFailure) });
  renameSync(away, file);
  await reader.append(append("a", 0));
  await reader.close();
  store = new SqliteEventStore(openDatabase(file, 1));
  expect((await store.session("a"))?.headSeq).toBe(1);
});

it("[STO-17] writes given before the end are written before it", async () => {
  const all = Promise.all(Array.from({ length: 20 }, (_, i) => store.append(append(`s${i}`, 0, 2))));
  await store.close();
  await all;
  store = new SqliteEventStore(openDatabase(file, 1));
  expect(await store.sessions(100)).toHaveLength(20);
});
