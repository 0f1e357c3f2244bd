import { createHash } from "node:crypto";
import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "better-sqlite3";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { migrate } from "../../prisma/migrate.ts";
import { type MigrationFault, MigrationRefused, migrationsOf } from "../../prisma/migrations.ts";

const MIGRATIONS = migrationsOf("sqlite");

let folder: string;
let db: Database.Database;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "chockside-migrations-"));
  db = new Database(":memory:");
});

afterEach(() => {
  db.close();
  rmSync(folder, { recursive: true, force: true });
});

const write = (name: string, sql: string) => {
  mkdirSync(join(folder, name), { recursive: true });
  writeFileSync(join(folder, name, "migration.sql"), sql);
};
const ledger = () => db.prepare(`SELECT * FROM "_prisma_migrations" ORDER BY "migration_name"`).all();
const tables = () =>
  db.prepare("SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name").pluck().all();
const refusal = (run: () => unknown): [MigrationFault, string] | undefined => {
  try {
    run();
  } catch (error) {
    if (error instanceof MigrationRefused) return [error.fault, error.migration];
    throw error;
  }
  return undefined;
};

describe("bringing a database to this version's shape", () => {
  it("applies what is pending in order of name, and records name, SHA-256 and time", () => {
    write("0002_more", "CREATE TABLE b (a TEXT REFERENCES a (id));");
    write("0001_init", "CREATE TABLE a (id TEXT PRIMARY KEY);");
    writeFileSync(join(folder, "migration_lock.toml"), `provider = "sqlite"\n`);

    expect(migrate(db, { folder, now: 42 })).toEqual(["0001_init", "0002_more"]);
    expect(ledger()).toMatchObject([
      {
        migration_name: "0001_init",
        checksum: createHash("sha256").update("CREATE TABLE a (id TEXT PRIMARY KEY);").digest("hex"),
        started_at: 42,
        finished_at: 42,
        rolled_back_at: null,
      },
      { migration_name: "0002_more", finished_at: 42 },
    ]);
  });

  it("does nothing the second time, and only what is new after that", () => {
    write("0001_init", "CREATE TABLE a (id TEXT);");
    migrate(db, { folder, now: 1 });
    expect(migrate(db, { folder, now: 2 })).toEqual([]);
    write("0002_more", "CREATE TABLE b (id TEXT);");
    expect(migrate(db, { folder, now: 3 })).toEqual(["0002_more"]);
    expect(ledger()).toMatchObject([{ finished_at: 1 }, { finished_at: 3 }]);
  });

  it("[OPS-22] refuses a database of a newer version and says which version it needs", () => {
    write("0001_init", "CREATE TABLE a (id TEXT);");
    migrate(db, { folder, now: 1 });
    write("0002_more", "CREATE TABLE b (id TEXT);");
    migrate(db, { folder, now: 2 });
    const applied = "UPDATE _prisma_migrations SET logs = ? WHERE migration_name = '0002_more'";
    db.prepare(applied).run("applied by chockside 9.4.1");
    rmSync(join(folder, "0002_more"), { recursive: true });
    const words = /0002_more, which this version does not know: run version 9\.4\.1 or later/;
    expect(() => migrate(db, { folder, now: 3 })).toThrow(words);
    // A database from before the version was kept.
    db.prepare(applied).run(null);
    expect(() => migrate(db, { folder, now: 3 })).toThrow("run a newer one");
    expect(ledger()[0]).toMatchObject({ logs: expect.stringMatching(/^applied by chockside \d+\.\d+\.\d+/) });
  });

  it("refuses a migration changed after it was applied", () => {
    write("0001_init", "CREATE TABLE a (id TEXT);");
    migrate(db, { folder, now: 1 });
    write("0001_init", "CREATE TABLE a (id TEXT, more TEXT);");
    write("0002_more", "CREATE TABLE b (id TEXT);");
    expect(refusal(() => migrate(db, { folder, now: 2 }))).toEqual(["changed", "0001_init"]);
    expect(tables()).not.toContain("b");
  });

  it("refuses a database with a migration it does not know", () => {
    write("0001_init", "CREATE TABLE a (id TEXT);");
    write("0002_later", "CREATE TABLE b (id TEXT);");
    migrate(db, { folder, now: 1 });
    rmSync(join(folder, "0002_later"), { recursive: true });
    expect(refusal(() => migrate(db, { folder, now: 2 }))).toEqual(["unknown", "0002_later"]);
  });

  it("refuses a migration that would slip in before one already applied", () => {
    write("0002_more", "CREATE TABLE b (id TEXT);");
    migrate(db, { folder, now: 1 });
    write("0001_init", "CREATE TABLE a (id TEXT);");
    expect(refusal(() => migrate(db, { folder, now: 2 }))).toEqual(["out-of-order", "0002_more"]);
    expect(tables()).not.toContain("a");
  });

  it("refuses a database where another tool began a migration and did not finish", () => {
    write("0001_init", "CREATE TABLE a (id TEXT);");
    migrate(db, { folder, now: 1 });
    db.exec(`UPDATE "_prisma_migrations" SET "finished_at" = NULL`);
    expect(refusal(() => migrate(db, { folder, now: 2 }))).toEqual(["unfinished", "0001_init"]);
  });

  it("leaves the database untouched when a script fails half-way", () => {
    write("0001_init", "CREATE TABLE a (id TEXT);");
    write("0002_more", "CREATE TABLE b (id TEXT); CREATE TABLE a (id TEXT);");
    expect(() => migrate(db, { folder, now: 1 })).toThrow(/table a already exists/);
    expect(tables()).toEqual([]);
  });

  it("lets a script rebuild a table that others refer to, and puts enforcement back", () => {
    db.pragma("foreign_keys = ON");
    write("0001_init", "CREATE TABLE a (id TEXT PRIMARY KEY); CREATE TABLE b (a TEXT REFERENCES a (id));");
    migrate(db, { folder, now: 1 });
    db.exec("INSERT INTO a VALUES ('x'); INSERT INTO b VALUES ('x');");
    write(
      "0002_rebuild",
      "CREATE TABLE n (id TEXT PRIMARY KEY, t TEXT); INSERT INTO n SELECT id, '' FROM a; DROP TABLE a; ALTER TABLE n RENAME TO a;",
    );
    expect(migrate(db, { folder, now: 2 })).toEqual(["0002_rebuild"]);
    expect(db.pragma("foreign_keys", { simple: true })).toBe(1);
    expect(() => db.exec("INSERT INTO b VALUES ('nobody')")).toThrow(/FOREIGN KEY/);
  });

  it("refuses a script that leaves a reference to nothing", () => {
    write("0001_init", "CREATE TABLE a (id TEXT PRIMARY KEY); CREATE TABLE b (a TEXT REFERENCES a (id));");
    migrate(db, { folder, now: 1 });
    db.exec("INSERT INTO a VALUES ('x'); INSERT INTO b VALUES ('x');");
    write("0002_lose", "DELETE FROM a;");
    expect(refusal(() => migrate(db, { folder, now: 2 }))).toEqual(["broken-reference", "0002_lose"]);
    expect(db.prepare("SELECT count(*) FROM a").pluck().get()).toBe(1);
  });

  it("opens a file by its path and lets go of it", () => {
    const file = join(folder, "chockside.db");
    const own = readdirSync(MIGRATIONS)
      .filter((name) => /^\d{4}_/.test(name))
      .sort();
    expect(own[0]).toBe("0001_init");
    cpSync(MIGRATIONS, join(folder, "own"), { recursive: true });
    expect(migrate(file, { folder: join(folder, "own"), now: 1 })).toEqual(own);
    expect(migrate(file, { folder: join(folder, "own"), now: 2 })).toEqual([]);
  });
});

describe("the first migration", () => {
  const event = `INSERT INTO "Event" ("session", "seq", "at", "type", "body", "hash") VALUES ('s', ?, 1, 't', '{}', 'h')`;

  beforeEach(() => {
    migrate(db, { now: 1 });
    db.prepare(event).run(1);
  });

  it("forbids changing an event", () => {
    expect(() => db.exec(`UPDATE "Event" SET "body" = '[]'`)).toThrow("events are append-only");
    expect(() =>
      db.exec(`INSERT INTO "Event" VALUES ('s', 1, 1, 't', NULL, '[]', 'h')
               ON CONFLICT ("session", "seq") DO UPDATE SET "body" = excluded."body"`),
    ).toThrow("events are append-only");
    expect(db.prepare(`SELECT "body" FROM "Event"`).pluck().all()).toEqual(["{}"]);
  });

  it("forbids removing an event, by replacement too where triggers recurse", () => {
    expect(() => db.exec(`DELETE FROM "Event"`)).toThrow("events are append-only");
    db.pragma("recursive_triggers = ON");
    expect(() => db.prepare(event.replace("INSERT", "INSERT OR REPLACE")).run(1)).toThrow(
      "events are append-only",
    );
  });

  it("lets one writer only take a number in a session", () => {
    expect(() => db.prepare(event).run(1)).toThrow(/UNIQUE constraint failed: Event.session, Event.seq/);
    expect(db.prepare(event).run(2).changes).toBe(1);
  });

  it("lies in the format of Prisma's own tool, for SQLite", () => {
    expect(readFileSync(join(MIGRATIONS, "migration_lock.toml"), "utf8")).toContain(`provider = "sqlite"`);
  });
});
