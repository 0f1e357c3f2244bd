import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { describe } from "vitest";
import { MemoryEventStore } from "../../server/store/memory-events.ts";
import { openDatabase } from "../../server/store/open.ts";
import { SqliteEventStore } from "../../server/store/sqlite-events.ts";
import { SqliteThread } from "../../server/store/sqlite-thread.ts";
import { eventStoreContract } from "./contract.ts";

describe("[STO-1, STO-2, STO-3] every event store", () => {
  eventStoreContract("in memory", async () => ({ store: new MemoryEventStore(), done() {} }));

  eventStoreContract("in SQLite", async () => {
    const folder = mkdtempSync(join(tmpdir(), "chockside-store-"));
    const store = new SqliteEventStore(openDatabase(join(folder, "chockside.db"), 1));
    return { store, done: () => rmSync(folder, { recursive: true, force: true }) };
  });

  eventStoreContract("in SQLite, written by a thread of its own", async () => {
    const folder = mkdtempSync(join(tmpdir(), "chockside-store-"));
    const file = join(folder, "chockside.db");
    const store = new SqliteEventStore(openDatabase(file, 1), new SqliteThread(file));
    return { store, done: () => rmSync(folder, { recursive: true, force: true }) };
  });
});
