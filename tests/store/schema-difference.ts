import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { PrismaBetterSqlite3 } from "@prisma/adapter-better-sqlite3";
import { PrismaPg } from "@prisma/adapter-pg";
import {
  bindMigrationAwareSqlAdapterFactory,
  type SqlMigrationAwareDriverAdapterFactory,
} from "@prisma/driver-adapter-utils";
import * as glue from "@prisma/schema-engine-wasm/schema_engine_bg";
import pg from "pg";

const FOLDER = fileURLToPath(new URL("../../prisma", import.meta.url));

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

/** Returns the SQL that changes the database in `file` to `schema`. */
export function differenceOfFile(file: string, schema: string): Promise<string> {
  return difference(new PrismaBetterSqlite3({ url: `file:${file}` }), schema);
}

/** Returns the same for a PostgreSQL database. */
export async function differenceOfPostgres(url: string, schema: string): Promise<string> {
  const pool = new pg.Pool({ connectionString: url });
  // The engine asks the catalogue for columns of type "char", which this adapter does not know; bpchar reads the same.
  const query = pool.query.bind(pool) as unknown as (...args: unknown[]) => Promise<pg.QueryResult>;
  Object.assign(pool, {
    query: async (...args: unknown[]) => {
      const result = await query(...args);
      for (const field of result.fields)
        if (field.dataTypeID === pg.types.builtins.CHAR) field.dataTypeID = pg.types.builtins.BPCHAR;
      return result;
    },
  });
  try {
    return await difference(new PrismaPg(pool), schema);
  } finally {
    await pool.end();
  }
}

async function difference(adapter: SqlMigrationAwareDriverAdapterFactory, schema: string): Promise<string> {
  const factory = bindMigrationAwareSqlAdapterFactory(adapter);
  const files = [{ path: "schema.prisma", content: schema }];
  const engine = await SchemaEngine.new({ datamodels: [["schema.prisma", schema]] }, () => {}, factory);
  const { stdout } = await engine.diff({
    from: { tag: "schemaDatasource", files, configDir: FOLDER },
    to: { tag: "schemaDatamodel", files },
    script: true,
    exitCode: null,
    filters: { externalTables: [], externalEnums: [] },
  });
  return stdout ?? "";
}
