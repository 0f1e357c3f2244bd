import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { gunzipSync } from "node:zlib";
import Database from "better-sqlite3";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { migrationsOf, readMigrations } from "../../prisma/migrations.ts";
import { openDatabase } from "../../server/store/open.ts";
import { VERSION } from "../../server/version.ts";

const OLD = fileURLToPath(new URL("fixtures/schema-5.sqlite.gz", import.meta.url));

let folder: string;
let file: string;
let printed: string[];
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "chockside-before-"));
  file = join(folder, "chockside.db");
  printed = [];
  vi.spyOn(console, "error").mockImplementation((line: string) => void printed.push(line));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const put = () => writeFileSync(file, gunzipSync(readFileSync(OLD)));
const copies = () => readdirSync(folder).filter((name) => name.includes(".before-"));

/** Returns every table of a database with its rows. */
function contents(of: string): Record<string, unknown[]> {
  const db = new Database(of, { readonly: true });
  const names = db.prepare("SELECT name FROM sqlite_master WHERE type = 'table' ORDER BY name").pluck().all();
  const all = names.map((name) => [name, db.prepare(`SELECT * FROM "${name}" ORDER BY 1, 2`).all()]);
  db.close();
  return Object.fromEntries(all);
}

/** Returns the names of the migrations that a database file lacks. */
function missing(of: string): string[] {
  const applied = (contents(of)._prisma_migrations ?? []) as { migration_name: string }[];
  return readMigrations(migrationsOf("sqlite"))
    .map(({ name }) => name)
    .slice(applied.length);
}

describe("[OPS-27] an upgrade of a database file", () => {
  it("prints what it migrates, and copies the file as it was, once and for this user alone", () => {
    put();
    const before = contents(file);
    const steps = missing(file);
    expect(steps.length).toBeGreaterThan(1);
    openDatabase(file, 1).close();
    const copy = `${file}.before-${steps[0]}`;
    expect(printed).toEqual([
      `chockside: bringing ${file} to the shape of version ${VERSION}: ${steps.join(", ")}`,
      expect.stringContaining(copy),
    ]);
    expect(contents(copy)).toEqual(before);
    expect(statSync(copy).mode & 0o077).toBe(0);
    expect(missing(file)).toEqual([]);
    // The way back: the copy in the place of the file is upgraded as the file was.
    rmSync(file);
    writeFileSync(file, readFileSync(copy));
    openDatabase(file, 1).close();
    expect(missing(file)).toEqual([]);
    expect(copies()).toHaveLength(1);
  });

  it("is silent for a new database and for one of this version", () => {
    openDatabase(file, 1).close();
    openDatabase(file, 2).close();
    expect(printed).toEqual([]);
    expect(copies()).toEqual([]);
  });

  it("is refused, and changes nothing, when no copy can be made", () => {
    put();
    const steps = missing(file);
    const before = contents(file);
    // A folder in the place of the copy stands for a disk that takes no more.
    mkdirSync(`${file}.before-${steps[0]}.part`);
    expect(() => openDatabase(file, 1)).toThrow(/was not upgraded, because no copy of it could be made/);
    expect(contents(file)).toEqual(before);
  });
});
