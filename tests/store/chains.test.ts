import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "better-sqlite3";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { databaseFindings } from "../../server/doctor/database.ts";
import { recordFinding } from "../../server/doctor/records.ts";
import { examine } from "../../server/store/examine.ts";
import { openDatabase } from "../../server/store/open.ts";
import { SqliteEventStore } from "../../server/store/sqlite-events.ts";
import { storeChained, TAMPERINGS } from "./chained.ts";
import { append } from "./contract.ts";

let folder: string;
let file: string;
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "chockside-chains-"));
  file = join(folder, "chockside.db");
  const store = new SqliteEventStore(openDatabase(file, 1));
  await storeChained(store);
  await store.close();
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const finding = () => databaseFindings(file, examine(file)).find((f) => f.at === "records");
/** Changes the file as an attacker with access to it can, past the guards. */
const tamper = (sql: string) => {
  const db = new Database(file);
  for (const name of db.prepare(`SELECT "name" FROM sqlite_master WHERE "type" = 'trigger'`).pluck().all())
    db.exec(`DROP TRIGGER "${name}"`);
  db.exec(sql);
  db.close();
};

describe("npm run doctor, on the records", () => {
  it("[OPS-10] follows every chain and says how many events hold", () => {
    expect(finding()).toMatchObject({ is: "ok", says: "3 events in 1 sessions, every hash chain intact" });
  });

  it.each(TAMPERINGS)("[OPS-10] finds %s, and from which event on", (_, sql, where) => {
    tamper(sql);
    expect(finding()).toMatchObject({
      is: "bad",
      says: `not what was once recorded: ${where}`,
      todo: expect.stringContaining("compare with the last backup"),
    });
  });

  it("[OPS-13] says how far it came when time runs out", async () => {
    const store = new SqliteEventStore(openDatabase(file, 1));
    await store.append(append("zz", 0, 1_200));
    await store.close();
    const { chains } = examine(file, () => true);
    expect(chains && recordFinding(chains)).toMatchObject({
      is: "bad",
      says: "not what was once recorded: CODE-zz from event 1; time ran out after 3 of 1203 events",
    });
    const whole = chains && recordFinding({ ...chains, broken: [] });
    expect(whole).toMatchObject({
      is: "watch",
      says: "every hash chain intact as far as checked; time ran out after 3 of 1203 events",
      todo: "give it longer: npm run doctor -- --minutes 30",
    });
  });
});
