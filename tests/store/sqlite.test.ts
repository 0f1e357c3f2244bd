import { mkdtempSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "better-sqlite3";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { StartRefused } from "../../server/start-refused.ts";
import { StoreFailure } from "../../server/store/events.ts";
import { assertDurable, lockDatabase, openDatabase } from "../../server/store/open.ts";
import { SqliteEventStore } from "../../server/store/sqlite-events.ts";
import { append } from "./contract.ts";

let folder: string;
let file: string;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "chockside-sqlite-"));
  file = join(folder, "chockside.db");
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const messageOf = (run: () => unknown): string => {
  try {
    run();
  } catch (error) {
    expect(error).toBeInstanceOf(StartRefused);
    return (error as Error).message;
  }
  throw new Error("nothing was refused");
};

describe("the evidence on disk", () => {
  it("[STO-15] is readable to its owner only, and so is its log", () => {
    const db = openDatabase(file, 1);
    db.exec("CREATE TABLE t (n)");
    for (const one of [file, `${file}-wal`]) expect(statSync(one).mode & 0o777).toBe(0o600);
    db.close();
  });

  it("[STO-3] shares one commit among the appends of one turn", async () => {
    openDatabase(file, 1).close();
    const said: string[] = [];
    const db = new Database(file, { verbose: (sql) => said.push(String(sql)) });
    const store = new SqliteEventStore(db);
    const commits = () => said.filter((sql) => sql === "COMMIT").length;
    await Promise.all(Array.from({ length: 40 }, (_, i) => store.append(append(`s${i}`, 0, 3))));
    expect(db.prepare(`SELECT count(*) FROM "Event"`).pluck().get()).toBe(120);
    expect(commits()).toBe(1);
    await store.append(append("s1", 3));
    await store.append(append("s1", 4));
    expect(commits()).toBe(3);
    await store.close();
  });

  it("[STO-2] keeps nothing of an append whose last event cannot be kept", async () => {
    const db = openDatabase(file, 1);
    const store = new SqliteEventStore(db);
    const { events, row, expected } = append("a", 0, 3);
    const broken = [...events.slice(0, 2), { ...events[2], body: null as unknown as string }];
    const bad = { expected, row, events: broken as typeof events };
    await expect(store.append(bad)).rejects.toBeInstanceOf(StoreFailure);
    expect(await store.read("a", 0, 10)).toEqual([]);
    expect(await store.session("a")).toBeNull();
    await store.append(append("a", 0, 3));
    expect(await store.read("a", 0, 10)).toHaveLength(3);
    await store.close();
  });

  it("[STO-4] can be neither changed nor removed, even by a replacing insert", async () => {
    const db = openDatabase(file, 1);
    const store = new SqliteEventStore(db);
    await store.append(append("a", 0, 2));
    for (const sql of [
      `UPDATE "Event" SET "body" = '{}'`,
      `DELETE FROM "Event" WHERE "seq" = 2`,
      `INSERT OR REPLACE INTO "Event" VALUES ('a', 1, 1, 't', NULL, '{}', 'h')`,
    ])
      expect(() => db.exec(sql), sql).toThrow("events are append-only");
    expect((await store.read("a", 0, 10)).map((e) => e.body)).toEqual(['{"seq":1}', '{"seq":2}']);
    await store.addCheckpoint({ session: "a", size: 2, at: 1, note: "n", publicKey: "k" });
    for (const sql of [`UPDATE "Checkpoint" SET "note" = 'm'`, `DELETE FROM "Checkpoint"`])
      expect(() => db.exec(sql), sql).toThrow("checkpoints are append-only");
    await store.append(append("b", 0, 1, { closedAt: 1 }));
    await store.remove("b", { id: "b", at: 1, note: "n", publicKey: "k" });
    expect(() => db.exec(`DELETE FROM "Removal"`)).toThrow("removals are append-only");
    expect(() => db.exec(`DELETE FROM "Event"`)).toThrow("events are append-only");
    expect(() => db.exec(`DELETE FROM "Checkpoint"`)).toThrow("checkpoints are append-only");
    db.exec(`INSERT INTO "RegisterEntry" VALUES ('aircraft', 'A', 1, 1, 'ada', NULL, '{}')`);
    for (const sql of [`UPDATE "RegisterEntry" SET "body" = '[]'`, `DELETE FROM "RegisterEntry"`])
      expect(() => db.exec(sql), sql).toThrow("the register is append-only");
    await store.close();
  });

  it("[STO-8] answers that it failed when the file cannot grow, and continues when it can again", async () => {
    const db = openDatabase(file, 1);
    const store = new SqliteEventStore(db);
    await store.append(append("a", 0));
    db.pragma(`max_page_count = ${db.pragma("page_count", { simple: true })}`);
    const big = append("a", 1);
    const events = big.events.map((e) => ({ ...e, body: "x".repeat(200_000) }));
    const failed = await store.append({ ...big, events }).catch((error: unknown) => error);
    expect(failed).toBeInstanceOf(StoreFailure);
    expect(String(failed)).toContain("full");
    expect(await store.session("a")).toMatchObject({ headSeq: 1 });
    db.pragma("max_page_count = 1000000");
    await store.append({ ...big, events });
    expect(await store.session("a")).toMatchObject({ headSeq: 2 });
    await store.close();
  });

  it("[STO-8] says so when it is asked whether it writes and it does not", async () => {
    const db = openDatabase(file, 1);
    const store = new SqliteEventStore(db);
    db.pragma("query_only = ON");
    await expect(store.probe()).rejects.toBeInstanceOf(StoreFailure);
    await expect(store.append(append("a", 0))).rejects.toBeInstanceOf(StoreFailure);
    db.pragma("query_only = OFF");
    await store.probe();
    await store.close();
  });

  it("[STO-5] is on a write-ahead log that is flushed at every commit, with references enforced", async () => {
    const db = openDatabase(file, 1);
    const setting = (name: string) => db.pragma(name, { simple: true });
    expect(["journal_mode", "synchronous", "foreign_keys"].map(setting)).toEqual(["wal", 2, 1]);
    db.close();
  });
});

describe("a database that is refused at the start", () => {
  it("[STO-5] where no write-ahead log can be kept", () => {
    const db = new Database(":memory:");
    expect(messageOf(() => assertDurable(db, "there"))).toMatch(
      /there cannot keep a write-ahead log.*local disk/,
    );
    expect(messageOf(() => openDatabase(":memory:", 1))).toContain("write-ahead log");
    db.close();
  });

  it("[STO-5] where commits are not flushed", () => {
    const db = new Database(file);
    db.pragma("journal_mode = WAL");
    db.pragma("synchronous = NORMAL");
    expect(messageOf(() => assertDurable(db, "there"))).toContain("not be flushed");
    db.close();
  });

  it("[STO-6] that is no database", () => {
    writeFileSync(
      file,
      "This was once a letter, and it is long enough to be taken for a header. ".repeat(40),
    );
    expect(messageOf(() => openDatabase(file, 1))).toMatch(
      /is not a database: move it away, or restore a backup/,
    );
  });

  it("[STO-6] whose pages are damaged", async () => {
    const store = new SqliteEventStore(openDatabase(file, 1));
    await store.append(append("a", 0, 50));
    await store.close();
    const db = new Database(file);
    db.pragma("journal_mode = DELETE");
    const size = Number(db.pragma("page_size", { simple: true }));
    db.close();
    const pages = Buffer.alloc(size * 4, 0x5a);
    // The header stays whole, so the damage shows only when the tables are read.
    const { openSync, writeSync, closeSync } = await import("node:fs");
    const handle = openSync(file, "r+");
    writeSync(handle, pages, 100, size * 3, 100);
    closeSync(handle);
    expect(messageOf(() => openDatabase(file, 1))).toMatch(/is damaged: restore a backup/);
  });

  it("[STO-6] whose folder cannot be made", () => {
    writeFileSync(join(folder, "in-the-way"), "");
    expect(messageOf(() => lockDatabase(join(folder, "in-the-way", "chockside.db")))).toContain(
      "cannot be used as the database",
    );
  });

  it("[STO-6] that came from a newer version", () => {
    const db = openDatabase(file, 1);
    db.exec(`UPDATE "_prisma_migrations" SET "migration_name" = '9999_later'`);
    db.close();
    expect(messageOf(() => openDatabase(file, 1))).toMatch(
      /does not know: run version \d+\.\d+\.\d+ or later/,
    );
  });

  it("[STO-6] that another server has open, until that one lets go", () => {
    const first = lockDatabase(file);
    expect(messageOf(() => lockDatabase(file))).toMatch(/in use by another Chockside server/);
    first.close();
    lockDatabase(file).close();
  });
});

describe("an approved type on disk", () => {
  it("[TYP-5] is neither changed nor removed, by whatever statement; a draft is", () => {
    const db = openDatabase(file, 1);
    const add = db.prepare(
      `INSERT INTO "AircraftType" (id, version, name, body, status, author, authors, revision, createdAt, changedAt)
       VALUES ('four', ?, 'Four', '{}', ?, 'Di', '[]', 1, 1, 1)`,
    );
    add.run(1, "approved");
    add.run(2, "draft");
    const statement = (sql: string) => () => db.prepare(sql).run();
    const of = `"AircraftType" WHERE version = 1`;
    expect(statement(`DELETE FROM ${of}`)).toThrow("an approved version is never removed");
    for (const set of [`body = '{"a":1}'`, "status = 'draft'", "approvedBy = 'Eve'"])
      expect(statement(`UPDATE "AircraftType" SET ${set} WHERE version = 1`)).toThrow("never changes");
    expect(statement(`UPDATE "AircraftType" SET body = '{"a":1}' WHERE version = 2`)().changes).toBe(1);
    expect(db.prepare(`SELECT body FROM ${of}`).pluck().get()).toBe("{}");
    db.close();
  });
});
