import { execFile } from "node:child_process";
import {
  copyFileSync,
  existsSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import Database from "better-sqlite3";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { replay } from "../../server/sessions/replay.ts";
import { sha256OfBytes } from "../../server/sha256.ts";
import { backUp } from "../../server/store/backup.ts";
import type { EventStore, SessionRow } from "../../server/store/events.ts";
import { openDatabase } from "../../server/store/open.ts";
import { PrismaDirectory } from "../../server/store/prisma-directory.ts";
import { SqliteEventStore } from "../../server/store/sqlite-events.ts";
import { canonical } from "../../shared/evidence/canonical.ts";
import { readSealed } from "../../shared/evidence/read.ts";
import { evolve } from "../../shared/session/evolve.ts";
import type { SessionState } from "../../shared/session/state.ts";
import { planned, signIn, type TestServer, testServer } from "../http/test-server.ts";
import { PNG } from "../pictures/files.ts";
import { append } from "./contract.ts";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));
const MINUTE = 60_000;
const run = promisify(execFile);

let folder: string;
let file: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "chockside-backup-"));
  file = join(folder, "chockside.db");
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** Returns a session's state after its first `size` events, read from the store. */
async function stateAt(store: EventStore, { id }: SessionRow, size: number): Promise<string> {
  let state: SessionState | null = null;
  for (const { body } of await store.read(id, 0, size)) state = evolve(state, readSealed(body).event);
  return canonical(state);
}

describe("npm run backup", () => {
  it(
    "[OPS-2, STO-15] while commands are answered, gives a database whose sessions are as they were, and which goes on",
    async () => {
      const store = new SqliteEventStore(openDatabase(file, 1));
      const live = await testServer({ store });
      const token = await signIn(live.app, "di");
      const sessions = await Promise.all([1, 2, 3].map(async () => (await planned(live.app, token)).id));
      const busy = commands(live, sessions);
      const into = join(folder, "backup.db");
      const child = run(process.execPath, ["--import", "tsx", "server/backup-cli.ts", into], {
        cwd: ROOT,
        env: { ...process.env, CHOCKSIDE_DATA: file, DATABASE_URL: "" },
      });
      const { stdout } = await child;
      const answered = await busy.stop();
      expect(answered).toBeGreaterThan(20);
      expect(stdout).toMatch(/backup\.db: 3 sessions with \d+ events, each rebuilt/);

      const restored = join(folder, "restored.db");
      expect(existsSync(`${into}.part`)).toBe(false);
      expect(statSync(into).mode & 0o777).toBe(0o600);
      await restore(into, restored);
      const copy = new SqliteEventStore(openDatabase(restored, 1));
      const rows = await copy.sessions(10);
      expect(rows.map((row) => row.id).sort()).toEqual([...sessions].sort());
      for (const row of rows) {
        const { state } = await replay(copy, row);
        expect(canonical(state)).toBe(await stateAt(store, row, row.headSeq));
        expect(row.headSeq).toBeGreaterThan(1);
      }
      await live.close();
      await store.close();

      const again = await testServer({ store: copy });
      // A hold in one session stands in every other one of the aircraft.
      for (const id of sessions) {
        const { holds } = (await again.services.sessions.get(id)).state;
        expect(holds.length).toBe(sessions.length);
      }
      expect((await again.app.inject({ url: "/health/ready" })).statusCode).toBe(200);
      await again.close();
      await copy.close();
    },
    5 * MINUTE,
  );

  it("[OPS-2] overwrites nothing, and leaves nothing behind when it cannot be verified", async () => {
    const into = join(folder, "backup.db");
    await expect(backUp(file, into)).rejects.toThrow("check CHOCKSIDE_DATA");
    const store = new SqliteEventStore(openDatabase(file, 1));
    // Sealed by nobody, so its contents cannot be rebuilt.
    await store.append(append("a", 0));
    await store.close();
    await expect(backUp(file, into)).rejects.toThrow("no backup was made: session a, event 1");
    writeFileSync(into, "older");
    await expect(backUp(file, into)).rejects.toThrow("exists already: name another file");
    expect(existsSync(`${into}.part`)).toBe(false);
    rmSync(into);
    writeFileSync(file, "no database at all, though it is long enough to look like one to a hasty reader");
    await expect(backUp(file, into)).rejects.toThrow("no backup was made: file is not a database");
    expect(existsSync(into)).toBe(false);
  });

  it("[OPS-2] finds a copy in which a byte of a record is another", async () => {
    const store = new SqliteEventStore(openDatabase(file, 1));
    const live = await testServer({ store });
    await planned(live.app, await signIn(live.app, "di"), { place: "South ramp" });
    await live.close();
    await store.close();
    const db = new Database(file);
    db.exec(`DROP TRIGGER "Event_no_update"; UPDATE "Event" SET "body" = replace("body", 'South', 'North')`);
    db.close();
    await expect(backUp(file, join(folder, "backup.db"))).rejects.toThrow("its chain is broken");
  });

  it("[DEF-15] has the pictures of defects, and is refused when one is not the one of its digest", async () => {
    openDatabase(file, 1).close();
    const directory = await PrismaDirectory.open(file);
    const { pictures } = directory;
    const of = {
      record: "r1",
      no: 1,
      at: 5,
      personId: "ada",
      media: "image/png" as const,
      length: PNG.length,
    };
    const good = { ...of, sha256: sha256OfBytes(PNG), bytes: PNG };
    await pictures.keep(good);
    const into = join(folder, "backup.db");
    expect(await backUp(file, into)).toMatchObject({ pictures: 1 });
    const copy = await PrismaDirectory.open(into);
    expect(Buffer.from((await copy.pictures.picture(good))?.bytes ?? []).equals(PNG)).toBe(true);
    await copy.close();
    await pictures.keep({ ...good, sha256: "0".repeat(64) });
    await directory.close();
    await expect(backUp(file, join(folder, "second.db"))).rejects.toThrow("000 is damaged");
    expect(existsSync(join(folder, "second.db"))).toBe(false);
  });

  it("[DEF-12] a picture that is removed leaves the database's very file", async () => {
    openDatabase(file, 1).close();
    const directory = await PrismaDirectory.open(file);
    const bytes = Buffer.from("what nobody should see ".repeat(1_000));
    const of = { record: "r1", no: 1, at: 5, personId: "ada", media: "image/png" as const };
    const one = { ...of, length: bytes.length, sha256: sha256OfBytes(bytes), bytes };
    const seen = () => {
      const db = new Database(file);
      db.pragma("wal_checkpoint(TRUNCATE)");
      db.close();
      return readFileSync(file).includes("nobody should see");
    };
    await directory.pictures.keep(one);
    expect(seen()).toBe(true);
    await directory.pictures.forget(one);
    expect(seen()).toBe(false);
    await directory.close();
  });
});

/** As `server/OPERATING.md` says: the one file is put in the place of the database. */
async function restore(backup: string, place: string): Promise<void> {
  openDatabase(place, 1).close();
  for (const end of ["", "-wal", "-shm"]) rmSync(`${place}${end}`, { force: true });
  copyFileSync(backup, place);
}

/** Raises and releases holds in every session, as fast as they are answered. */
function commands({ services }: TestServer, sessions: readonly string[]) {
  let going = true;
  let answered = 0;
  const di = { id: "di", name: "Di", device: "di-tablet", mayHold: ["supervisor" as const] };
  const give = (session: string, n: number) =>
    services.sessions.command(di, {
      v: 1,
      id: `00000000-0000-4000-8000-3${String(n).padStart(11, "0")}`,
      session,
      clientAt: n,
      action: n <= 3 ? { type: "send", kind: "hold", channel: "panel" } : { type: "confirmBrief" },
    });
  const work = (async () => {
    while (going) {
      for (const session of sessions) {
        answered += 1;
        await give(session, answered);
      }
      await new Promise(setImmediate);
    }
  })();
  return {
    stop: async () => {
      going = false;
      await work;
      return answered;
    },
  };
}
