import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { MemoryEventStore } from "../../server/store/memory-events.ts";
import { openDatabase } from "../../server/store/open.ts";
import { SqliteEventStore } from "../../server/store/sqlite-events.ts";
import { eventStoreContract } from "./contract.ts";

eventStoreContract("the memory store", async () => ({ store: new MemoryEventStore(), done() {} }));

eventStoreContract("the SQLite store", async () => {
  const folder = mkdtempSync(join(tmpdir(), "chockside-store-"));
  const store = new SqliteEventStore(openDatabase(join(folder, "chockside.db"), 1));
  return { store, done: () => rmSync(folder, { recursive: true, force: true }) };
});
