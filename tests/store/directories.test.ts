import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe } from "vitest";
import { MemoryDirectory } from "../../server/store/memory-directory.ts";
import { openDatabase } from "../../server/store/open.ts";
import { PrismaDirectory } from "../../server/store/prisma-directory.ts";
import { SqliteEventStore } from "../../server/store/sqlite-events.ts";
import { directoryContract } from "./contract-directory.ts";

describe("[STO-9] every directory", () => {
  directoryContract("in memory", async () => ({
    directory: new MemoryDirectory(),
    async done() {},
  }));

  directoryContract("in SQLite", async () => {
    const folder = mkdtempSync(join(tmpdir(), "chockside-directory-"));
    const file = join(folder, "chockside.db");
    openDatabase(file, 1).close();
    const directory = await PrismaDirectory.open(file);
    const done = async () => {
      await directory.close();
      rmSync(folder, { recursive: true, force: true });
    };
    return { directory, done };
  });

  directoryContract("in SQLite, with the writer of the evidence", async () => {
    const folder = mkdtempSync(join(tmpdir(), "chockside-directory-"));
    const file = join(folder, "chockside.db");
    const store = new SqliteEventStore(openDatabase(file, 1));
    const directory = await PrismaDirectory.open(file, (ids, at) => store.usedSignIns(ids, at));
    const done = async () => {
      await directory.close();
      await store.close();
      rmSync(folder, { recursive: true, force: true });
    };
    return { directory, done };
  });
});
