import { copyFileSync, mkdtempSync, renameSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeAll, beforeEach, describe, expect, it } from "vitest";
import { StoreFailure } from "../../server/store/events.ts";
import { openDatabase } from "../../server/store/open.ts";
import { SqliteEventStore } from "../../server/store/sqlite-events.ts";
import { SqliteThread } from "../../server/store/sqlite-thread.ts";
import { liveServer } from "../live/panel.ts";
import { prepareServer } from "../live/server-process.ts";
import { append } from "./contract.ts";

let folder: string;
let file: string;
let store: SqliteEventStore;

beforeAll(prepareServer, 240_000);
afterEach(async () => {
  await store.close();
  rmSync(folder, { recursive: true, force: true });
});

describe.each<[string, () => SqliteThread | undefined]>([
  ["by the server's own thread", () => undefined],
  ["by a thread of its own", () => new SqliteThread(file)],
])("a database written %s", (_by, writer) => {
  beforeEach(async () => {
    folder = mkdtempSync(join(tmpdir(), "chockside-same-"));
    file = join(folder, "chockside.db");
    store = new SqliteEventStore(openDatabase(file, 1), writer());
    await store.append(append("first", 0));
  });

  it.each<[string, () => void]>([
    ["deleted", () => rmSync(file)],
    ["moved away", () => renameSync(file, `${file}.away`)],
    [
      "replaced by a copy of itself",
      () => {
        copyFileSync(file, `${file}.copy`);
        renameSync(`${file}.copy`, file);
      },
    ],
    ["left without its log", () => rmSync(`${file}-wal`)],
  ])(
    "[STO-18] and %s takes no event and is not ready; what it answers is never said to be stored",
    async (_what, harm) => {
      harm();
      await expect(store.append(append("first", 1))).rejects.toThrow(StoreFailure);
      await expect(store.append(append("second", 0))).rejects.toThrow(/was moved, deleted or replaced/);
      await expect(store.probe()).rejects.toThrow(StoreFailure);
      const server = await liveServer({ store });
      expect((await server.app.inject({ url: "/health/ready" })).statusCode).toBe(503);
      expect((await server.app.inject({ url: "/health/live" })).statusCode).toBe(200);
      await server.close();
    },
  );

  it("[STO-18] goes on when the very file is put back", async () => {
    renameSync(file, `${file}.away`);
    await expect(store.append(append("first", 1))).rejects.toThrow(StoreFailure);
    renameSync(`${file}.away`, file);
    await store.append(append("first", 1));
    expect((await store.session("first"))?.headSeq).toBe(2);
  });
});
