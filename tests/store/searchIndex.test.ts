import { mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "better-sqlite3";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { MemorySearchIndex } from "../../server/store/memory-search-index.ts";
import { SqliteSearchIndex } from "../../server/store/sqlite-search-index.ts";
import { entry, searchIndexContract, terms, wanted } from "./contract-index.ts";

let folder: string;
let data: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "chockside-index-"));
  data = join(folder, "chockside.db");
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

describe("every search index", () => {
  searchIndexContract("in memory", async () => ({ index: new MemorySearchIndex(), done() {} }));
  searchIndexContract("in SQLite", async () => ({ index: new SqliteSearchIndex(data), done() {} }));
});

describe("the search index on disk", () => {
  const filled = async () => {
    const index = new SqliteSearchIndex(data);
    await index.put("s-1", 0, 4, [entry("s-1", 4, "Quicksilver")]);
    await index.close();
  };
  const heads = async () => {
    const index = new SqliteSearchIndex(data);
    const all = await index.heads();
    await index.close();
    return [...all];
  };
  const bytes = () =>
    readdirSync(folder)
      .map((name) => readFileSync(join(folder, name), "latin1").toLowerCase())
      .join();

  it("[HIS-30] stands beside the database, readable to its owner only, and is there after a restart", async () => {
    await filled();
    expect(statSync(`${data}.search`).mode & 0o777).toBe(0o600);
    expect(await heads()).toEqual([["s-1", 4]]);
  });

  it("[HIS-30] begins empty where it is of another form, damaged or gone", async () => {
    await filled();
    const db = new Database(`${data}.search`);
    db.pragma("user_version = 99");
    db.close();
    expect(await heads()).toEqual([]);
    await filled();
    writeFileSync(`${data}.search`, "Not a database, and long enough to be taken for one. ".repeat(99));
    expect(await heads()).toEqual([]);
    await filled();
    rmSync(`${data}.search`);
    expect(await heads()).toEqual([]);
  });

  it("[HIS-30] keeps no byte of a session that was removed", async () => {
    const index = new SqliteSearchIndex(data);
    const others = Array.from({ length: 40 }, (_, i) => entry("s-2", i + 1, `Other words ${i}`));
    await index.put("s-2", 0, 40, others);
    await index.put("s-1", 0, 4, [entry("s-1", 4, "Quicksilver")]);
    await index.keepStarts({ session: "s-1", headHash: "a", body: "Quicksilver in a stop".repeat(500) });
    await index.keepStarts({ session: "s-2", headHash: "b", body: "A stop of the other" });
    expect(await index.find(wanted({ terms: terms("quick") }))).toHaveLength(1);
    expect(bytes()).toContain("quicksilver");
    await index.forget("s-1");
    await index.close();
    expect(bytes().includes("quicksilver")).toBe(false);
    expect(bytes()).toContain("other words 7");
    expect(bytes()).toContain("a stop of the other");
  });
});
