import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "better-sqlite3";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { migrate } from "../../prisma/migrate.ts";
import { PROVIDERS, schemaFor } from "../../prisma/providers.mjs";
import { differenceOfFile } from "./schema-difference.ts";

const EMPTY = /^-- This is an empty migration\.\s*$/;

describe("migrations for SQLite and schema.prisma", () => {
  let folder: string;
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), "chockside-drift-"));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it("give the same database", async () => {
    const file = join(folder, "same.db");
    migrate(file, { now: 1 });
    expect(await differenceOfFile(file, schemaFor("sqlite"))).toMatch(EMPTY);
  });

  it("are told apart when they drift: a column more in either is found", async () => {
    const file = join(folder, "drifted.db");
    migrate(file, { now: 1 });
    const schema = schemaFor("sqlite");
    const wider = schema.replace("model Meta {", "model Meta {\n  note String?\n");
    expect(await differenceOfFile(file, wider)).toContain(`ADD COLUMN "note" TEXT`);
    const other = join(folder, "other.db");
    migrate(other, { now: 1 });
    const db = new Database(other);
    db.exec(`ALTER TABLE "Meta" ADD COLUMN "note" TEXT`);
    db.close();
    expect(await differenceOfFile(other, schema)).toContain(`CREATE TABLE "new_Meta"`);
  });
});

describe("the schemas of the providers", () => {
  it("[STO-14] are the one model, but for the provider and the folder of the client", () => {
    const [sqlite = "", postgresql = ""] = PROVIDERS.map((p) => schemaFor(p));
    const lines = (schema: string) => schema.split("\n");
    const different = lines(sqlite).filter((line, n) => line !== lines(postgresql)[n]);
    expect(different.map((line) => line.replaceAll(/ +/g, " ").trim())).toEqual([
      'provider = "sqlite"',
      'output = "./sqlite"',
    ]);
    expect(lines(postgresql)).toHaveLength(lines(sqlite).length);
    expect(() => schemaFor("postgresql", "model Meta {}")).toThrow("exactly once");
  });
});
