import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { PrismaBetterSqlite3 } from "@prisma/adapter-better-sqlite3";
import { bindMigrationAwareSqlAdapterFactory } from "@prisma/driver-adapter-utils";
import * as glue from "@prisma/schema-engine-wasm/schema_engine_bg";
import Database from "better-sqlite3";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { migrate } from "../../prisma/migrate.ts";

const SCHEMA = fileURLToPath(new URL("../../prisma/schema.prisma", import.meta.url));
const EMPTY = /^-- This is an empty migration\.\s*$/;

/** Prisma's schema engine ships as WebAssembly too, but without a loader for Node. */
function loadSchemaEngine(): typeof glue.SchemaEngine {
  const folder = dirname(
    createRequire(import.meta.url).resolve("@prisma/schema-engine-wasm/schema_engine_bg"),
  );
  const module = new WebAssembly.Module(readFileSync(join(folder, "schema_engine_bg.wasm")));
  const imports = { "./schema_engine_bg.js": glue as unknown as WebAssembly.ModuleImports };
  const { exports } = new WebAssembly.Instance(module, imports);
  const { __wbg_set_wasm } = glue as unknown as { __wbg_set_wasm(exports: WebAssembly.Exports): void };
  __wbg_set_wasm(exports);
  (exports as { __wbindgen_start(): void }).__wbindgen_start();
  return glue.SchemaEngine;
}

const SchemaEngine = loadSchemaEngine();

/** SQL that would bring the database in `file` to the shape of `schema`. */
async function difference(file: string, schema: string): Promise<string> {
  const factory = bindMigrationAwareSqlAdapterFactory(new PrismaBetterSqlite3({ url: `file:${file}` }));
  const files = [{ path: "schema.prisma", content: schema }];
  const engine = await SchemaEngine.new({ datamodels: [["schema.prisma", schema]] }, () => {}, factory);
  const { stdout } = await engine.diff({
    from: { tag: "schemaDatasource", files, configDir: dirname(SCHEMA) },
    to: { tag: "schemaDatamodel", files },
    script: true,
    exitCode: null,
    filters: { externalTables: [], externalEnums: [] },
  });
  return stdout ?? "";
}

describe("migrations and schema.prisma", () => {
  let folder: string;
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), "chockside-drift-"));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it("give the same database", async () => {
    const file = join(folder, "same.db");
    migrate(file, { now: 1 });
    expect(await difference(file, readFileSync(SCHEMA, "utf8"))).toMatch(EMPTY);
  });

  it("are told apart when they drift: a column more in either is found", async () => {
    const file = join(folder, "drifted.db");
    migrate(file, { now: 1 });
    const schema = readFileSync(SCHEMA, "utf8");
    const wider = schema.replace("model Meta {", "model Meta {\n  note String?\n");
    expect(await difference(file, wider)).toContain(`ADD COLUMN "note" TEXT`);
    const other = join(folder, "other.db");
    migrate(other, { now: 1 });
    const db = new Database(other);
    db.exec(`ALTER TABLE "Meta" ADD COLUMN "note" TEXT`);
    db.close();
    expect(await difference(other, schema)).toContain(`CREATE TABLE "new_Meta"`);
  });
});
