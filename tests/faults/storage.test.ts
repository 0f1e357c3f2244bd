import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "better-sqlite3";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { openDatabase } from "../../server/store/open.ts";
import { SqliteEventStore } from "../../server/store/sqlite-events.ts";
import { SqliteThread } from "../../server/store/sqlite-thread.ts";
import { planned, signIn } from "../http/test-server.ts";
import { HOLD, type LiveServer, liveServer, panelOf, type TestPanel } from "../live/panel.ts";
import { Chance } from "../sim/chance.ts";
import { powerCuts } from "./powerCut.ts";

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "chockside-storage-"));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

it("[FLT-3] a power cut at any moment loses nothing that was answered and keeps nothing by half", async () => {
  const { faults, ...counts } = await powerCuts(folder, 60, new Chance(7));
  expect(faults).toEqual([]);
  expect(counts.torn).toBeGreaterThan(30);
  expect(counts.checkpoints).toBeGreaterThan(3);
});

describe("a database that fails under a live server", () => {
  let server: LiveServer;
  let db: Database.Database;
  let session: string;
  let ada: TestPanel;
  beforeEach(async () => {
    db = openDatabase(join(folder, "live.db"), 1);
    server = await liveServer({ store: new SqliteEventStore(db) });
    session = (await planned(server.app, await signIn(server.app, "fay"))).id;
    ada = await panelOf(server, "ada");
    await ada.watch(session);
  });
  afterEach(async () => {
    ada.close();
    await server.close();
    db.close();
  });

  const ready = async () => (await server.app.inject({ url: "/health/ready" })).statusCode;

  /**
   * While storage fails, stops are passed on as unrecorded and nothing is kept. Afterwards the session continues
   * from before.
   */
  async function suffers(begin: () => void, end: () => void, whileIt = 503): Promise<void> {
    expect((await ada.command(session, HOLD)).status).toBe("accepted");
    const before = (await server.services.sessions.get(session)).state;
    begin();
    expect(await ada.command(session, HOLD)).toMatchObject({ status: "error", error: "notAvailable" });
    await ada.until(() => ada.unrecorded.length === 1);
    expect(ada.unrecorded[0]?.action.kind).toBe("hold");
    expect(await ready()).toBe(whileIt);
    expect((await server.services.sessions.get(session)).state).toEqual(before);
    end();
    expect((await ada.command(session, HOLD)).status).toBe("accepted");
    expect(await ready()).toBe(200);
    const kept = db.prepare(`SELECT count(*) FROM "Event" WHERE "session" = ?`).pluck().get(session);
    const { state } = await server.services.sessions.get(session);
    expect([kept, state.holds.length]).toEqual([state.seq, 2]);
    expect(ada.faults).toEqual([]);
  }

  it("[FLT-4] a full disk", async () => {
    // SQLite answers SQLITE_FULL when the file system reports ENOSPC.
    const most = Number(db.pragma("max_page_count", { simple: true }));
    const fill = () => {
      db.pragma(`max_page_count = ${db.pragma("page_count", { simple: true })}`);
      const insert = db.prepare(
        `INSERT INTO "Event" ("session", "seq", "at", "type", "body", "hash") VALUES ('~', ?, 1, '', '', '')`,
      );
      expect(() => {
        for (let seq = 1; seq < 100_000; seq += 1) insert.run(seq);
      }).toThrow(/full/);
    };
    // With a limit in pages, the few bytes of a probe still fit into one; on a full file system they would not.
    await suffers(fill, () => db.pragma(`max_page_count = ${most}`), 200);
  });

  it("[FLT-4] a disk that has become read-only", async () => {
    await suffers(
      () => db.pragma("query_only = ON"),
      () => db.pragma("query_only = OFF"),
    );
  });

  it("[FLT-4] a database another program keeps locked for longer than is waited", async () => {
    const other = new Database(join(folder, "live.db"));
    await suffers(
      () => other.exec("BEGIN IMMEDIATE"),
      () => other.exec("COMMIT"),
    );
    other.close();
  });

  it("[STO-16] a stop that waits for a lock is passed on within a second, and recorded once the lock is gone", async () => {
    const file = join(folder, "waiting.db");
    const waiting = await liveServer({
      store: new SqliteEventStore(openDatabase(file, 1), new SqliteThread(file)),
    });
    const { id } = await planned(waiting.app, await signIn(waiting.app, "fay"));
    const bea = await panelOf(waiting, "ada");
    await bea.watch(id);
    const other = new Database(file);
    other.exec("BEGIN IMMEDIATE");
    const answer = bea.command(id, HOLD);
    await bea.exchange();
    await waiting.hand.pass(1_000);
    await bea.until(() => bea.unrecorded.length === 1);
    other.exec("ROLLBACK");
    expect((await answer).status).toBe("accepted");
    expect((await waiting.services.sessions.get(id)).state.holds).toHaveLength(1);
    other.close();
    bea.close();
    await waiting.close();
  });

  it("[FLT-4] a clock that was set: clearances are void, and time never runs back in the record", async () => {
    await ada.command(session, HOLD);
    const before = (await server.services.sessions.get(session)).state;
    for (const by of [-3_600_000, 7_200_000]) {
      server.hand.setWall(by);
      await server.hand.pass(1_000);
    }
    await ada.command(session, HOLD);
    await ada.exchange();
    const steps = ada.heard.filter((e) => e.fact.type === "clockStepped");
    expect(steps).toHaveLength(2);
    const times = ada.heard.map((e) => e.at);
    expect(times).toEqual([...times].sort((a, b) => a - b));
    expect((await server.services.sessions.get(session)).state.epoch).toBeGreaterThan(before.epoch + 1);
  });
});
