import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "better-sqlite3";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { databaseFindings } from "../../server/doctor/database.ts";
import { rowOf } from "../../server/sessions/row.ts";
import { examine } from "../../server/store/examine.ts";
import { openDatabase } from "../../server/store/open.ts";
import { SqliteEventStore } from "../../server/store/sqlite-events.ts";
import { genesis, seal } from "../../shared/evidence/chain.ts";
import { given, sha256 } from "../spec/given.ts";

let folder: string;
let file: string;
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "chockside-chains-"));
  file = join(folder, "chockside.db");
  const story = given().manned(["cockpit", "supervisor"]);
  let head = genesis(story.state.id, sha256);
  const events = story.log.map((event) => {
    const sealed = seal(event, head, sha256);
    head = sealed.hash;
    return { ...sealed, at: event.at, command: event.command, type: event.fact.type };
  });
  const store = new SqliteEventStore(openDatabase(file, 1));
  const row = rowOf({ code: "K7", planCommand: "p", createdAt: 1 }, story.state, head);
  await store.append({ expected: 0, events, row });
  await store.close();
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const finding = () => databaseFindings(file, examine(file)).find((f) => f.at === "records");
/** What somebody with the file in their hands can do, past the guards. */
const tamper = (sql: string) => {
  const db = new Database(file);
  for (const name of db.prepare(`SELECT "name" FROM sqlite_master WHERE "type" = 'trigger'`).pluck().all())
    db.exec(`DROP TRIGGER "${name}"`);
  db.exec(sql);
  db.close();
};

describe("npm run doctor, on the records", () => {
  it("[OPS-10] follows every chain and says how many events hold", () => {
    expect(finding()).toMatchObject({ is: "ok", says: "3 events in 1 sessions, every chain whole" });
  });

  it.each([
    [
      "a word changed",
      `UPDATE "Event" SET "body" = replace("body", 'cockpit', 'fireGuard') WHERE "seq" = 2`,
      2,
    ],
    ["an event taken out", `DELETE FROM "Event" WHERE "seq" = 2`, 2],
    ["the last event cut off", `DELETE FROM "Event" WHERE "seq" = 3`, 3],
    ["a row that names another head", `UPDATE "Session" SET "headHash" = 'x'`, 4],
  ])("[OPS-10] finds %s, and from which event on", (_, sql, seq) => {
    tamper(sql);
    expect(finding()).toMatchObject({
      is: "bad",
      says: `not what was once recorded: K7 from event ${seq}`,
      todo: expect.stringContaining("compare with the last backup"),
    });
  });
});
