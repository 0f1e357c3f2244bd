import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "better-sqlite3";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { typeFindings } from "../../server/doctor/types.ts";
import type { Directory } from "../../server/store/directory.ts";
import { openDatabase } from "../../server/store/open.ts";
import { PrismaDirectory } from "../../server/store/prisma-directory.ts";
import { typesOnFile } from "../../server/store/sqlite-types.ts";
import { TypeSeals } from "../../server/types/seals.ts";
import { testSigner } from "../http/test-signer.ts";
import { FOUR } from "../spec/aircraft.ts";

const APPROVED = { ...FOUR, approvedBy: "Chief engineer" };
const clock = { now: () => 1_000 };
const log = { error() {} };

let folder: string;
let file: string;
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "chockside-seals-"));
  file = join(folder, "seals.db");
  openDatabase(file, 1).close();
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

type From = Pick<Directory, "storedTypes" | "missingTypeGuards" | "sealType">;
const sealsOver = (directory: From, signer = testSigner, demoFigures = true) =>
  new TypeSeals({ directory: directory as Directory, signer, clock, log, demoFigures });

/** Opens the file as a server does, seals what is there, and closes it again. */
async function sealed(): Promise<void> {
  const directory = await PrismaDirectory.open(file);
  await directory.addTypes([APPROVED], 5);
  await sealsOver(directory).begin();
  await directory.close();
  const db = new Database(file);
  // Rewrites the file, so that no earlier form of the row is left in unused pages.
  db.exec("VACUUM");
  db.pragma("wal_checkpoint(TRUNCATE)");
  db.close();
}

/** Returns what a load says of the type, and the doctor's findings that are bad. */
async function judged(of = file) {
  const db = new Database(of, { readonly: true });
  const examined = typesOnFile(db);
  db.close();
  const directory: From = {
    async storedTypes() {
      if ("unreadable" in examined) throw new Error(examined.unreadable);
      return examined.rows;
    },
    async missingTypeGuards() {
      return "unreadable" in examined ? [] : examined.missing;
    },
    async sealType() {},
  };
  const bad = typeFindings(examined, { publicHex: testSigner.publicHex, demo: true }).filter(
    (f) => f.is === "bad",
  );
  return { load: await sealsOver(directory).usable("four"), bad };
}

describe("the seal of an approved version", () => {
  it("[TYP-30] is given at the first start to what was approved before there were seals, once", async () => {
    await sealed();
    expect(await judged()).toEqual({
      load: { type: APPROVED, seal: expect.stringMatching(/^[0-9a-f]{64}$/) },
      bad: [],
    });
    const directory = await PrismaDirectory.open(file);
    await directory.addTypes([{ ...APPROVED, version: 2 }], 6);
    await sealsOver(directory).begin();
    expect(await sealsOver(directory).usable("four")).toEqual({
      why: "version 2 of four is approved without a seal: make a draft of it and approve that",
    });
    await directory.close();
  });

  it("[TYP-31] is broken by a change of any column, and no older version takes its place", async () => {
    await sealed();
    const db = new Database(file);
    db.exec(`DROP TRIGGER "AircraftType_approved_no_update"`);
    const columns = db.pragma(`table_info("AircraftType")`) as { name: string; type: string }[];
    const change = (name: string, type: string) =>
      type === "TEXT"
        ? `"${name}" = coalesce("${name}", '') || 'x'`
        : `"${name}" = coalesce("${name}", 0) + 1`;
    for (const { name, type } of columns) {
      const before = db.prepare(`SELECT * FROM "AircraftType"`).get() as object;
      db.exec(`UPDATE "AircraftType" SET ${change(name, type)}`);
      const { load, bad } = await judged();
      expect(load, name).toEqual({ why: expect.stringMatching(/guard|not what was approved/) });
      expect(
        bad.some((f) => f.at === "seals" && /not what was approved/.test(f.says)),
        name,
      ).toBe(true);
      db.exec(`DELETE FROM "AircraftType" WHERE 0`);
      const names = Object.keys(before);
      db.prepare(`UPDATE "AircraftType" SET ${names.map((n) => `"${n}" = @${n}`).join(", ")}`).run(before);
    }
    db.close();
    expect(columns.length).toBeGreaterThanOrEqual(15);
  });

  it("[TYP-31] 201 bytes flipped in a type's row, one at a time, are each found by the load and by the doctor", async () => {
    await sealed();
    const bytes = readFileSync(file);
    const places = contentOf(bytes);
    expect(places.length).toBeGreaterThan(5_000);
    for (let k = 0; k < 201; k += 1) {
      const at = places[Math.floor((k * places.length) / 201)] ?? 0;
      const spoilt = Buffer.from(bytes);
      spoilt[at] = (spoilt[at] ?? 0) ^ (1 << (k % 7));
      const copy = join(folder, "spoilt.db");
      writeFileSync(copy, spoilt);
      const { load, bad } = await judged(copy);
      expect(load, `byte ${at}`).toEqual({ why: expect.any(String) });
      expect(bad, `byte ${at}`).not.toEqual([]);
    }
  });

  it("[TYP-32] each guard that is dropped or made anew otherwise stops the use of every type, in words", async () => {
    await sealed();
    for (const name of ["AircraftType_approved_no_update", "AircraftType_approved_no_delete"]) {
      const db = new Database(file);
      const made = db.prepare("SELECT sql FROM sqlite_master WHERE name = ?").pluck().get(name) as string;
      db.exec(`DROP TRIGGER "${name}"`);
      const { load, bad } = await judged();
      expect(load).toEqual({
        why: `the database lacks its guard ${name}: stop the server and run npm run doctor`,
      });
      expect(bad.map((f) => f.says)).toContain(`the trigger ${name} is missing or not as it was made`);
      db.exec(made.replace("RAISE(ABORT", "RAISE(IGNORE").replace(/, 'an approved[^']*'/, ""));
      expect((await judged()).bad.map((f) => f.at)).toContain("guards");
      db.exec(`DROP TRIGGER "${name}"`);
      db.exec(made);
      db.close();
      expect((await judged()).bad).toEqual([]);
    }
  });

  it("[TYP-32] the guards of every other table are compared by the doctor", async () => {
    await sealed();
    const db = new Database(file);
    const triggers = db
      .prepare<[], { name: string; sql: string }>(
        `SELECT name, sql FROM sqlite_master WHERE type = 'trigger' AND tbl_name <> 'AircraftType'`,
      )
      .all();
    expect(triggers.length).toBeGreaterThan(6);
    for (const { name, sql } of triggers) {
      db.exec(`DROP TRIGGER "${name}"`);
      const { bad } = await judged();
      expect(bad.map((f) => f.says)).toEqual([`the trigger ${name} is missing or not as it was made`]);
      db.exec(sql);
    }
    expect((await judged()).bad).toEqual([]);
    db.close();
  });
});

/** Returns the places of the bytes of the row's long texts: its body, and the note of its seal. */
function contentOf(bytes: Buffer): number[] {
  const db = new Database(file, { readonly: true });
  const { body, seal } = db.prepare(`SELECT "body", "seal" FROM "AircraftType"`).get() as Record<
    string,
    string
  >;
  db.close();
  const places: number[] = [];
  for (const text of [body ?? "", seal ?? ""]) {
    const all = Buffer.from(text);
    for (let from = 0; from + 40 <= all.length; from += 40) {
      const at = bytes.indexOf(all.subarray(from, from + 40));
      if (at >= 0) for (let k = 0; k < 40; k += 1) places.push(at + k);
    }
  }
  return places;
}
