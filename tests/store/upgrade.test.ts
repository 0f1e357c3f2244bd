import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { gunzipSync } from "node:zlib";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { claimOf } from "../../server/evidence/export.ts";
import { noteTools } from "../../server/evidence/note-tools.ts";
import { replay } from "../../server/sessions/replay.ts";
import { openDatabase } from "../../server/store/open.ts";
import { PrismaDirectory } from "../../server/store/prisma-directory.ts";
import { SqliteEventStore } from "../../server/store/sqlite-events.ts";
import { canonical } from "../../shared/evidence/canonical.ts";
import { openCheckpoint } from "../../shared/evidence/checkpoint.ts";
import { GrowingTree } from "../../shared/evidence/merkle.ts";
import { fromHex, toHex, utf8 } from "../../shared/evidence/note.ts";
import { verify } from "../../shared/evidence/verify.ts";
import { START } from "../http/hand-clock.ts";
import { bearer, PIN, type TestServer, testServer } from "../http/test-server.ts";
import { sha256 } from "../spec/given.ts";

/**
 * Databases that earlier versions left, each written once by the code of its time and never again. Schema 1: the closed
 * start of `four-engines-1.ndjson`, a second session in its brief with a hold on it, three people with one PIN, one
 * sign-in, one failed attempt. Schema 5: the same, with pseudonyms in the second session and a checkpoint of each.
 * Schema 7: the demo, whose scripted crew started four engines and closed the session, and a second session of the same
 * aircraft, only planned, with a hold on it; written before aircraft had records of their own.
 */
const FIXTURES = fileURLToPath(new URL("fixtures", import.meta.url));
const names = readdirSync(FIXTURES).filter((name) => name.endsWith(".sqlite.gz"));
/** For each: the stage and the cockpit of its open session, and somebody who signs in. */
const INSIDE: Readonly<Record<string, { open: string; cockpit: string; handle: string; pin: string }>> = {
  "schema-1.sqlite.gz": { open: "brief", cockpit: "Ada", handle: "di", pin: PIN },
  "schema-5.sqlite.gz": { open: "brief", cockpit: "Ada", handle: "di", pin: PIN },
  "schema-7.sqlite.gz": { open: "plan", cockpit: "Austol Vellanwen", handle: "merryn", pin: "925364" },
};
const kept = (name: string) =>
  readFileSync(fileURLToPath(new URL(`../spec/fixtures/${name}`, import.meta.url)), "utf8").trimEnd();

let folder: string;
let file: string;
let test: TestServer | undefined;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "chockside-upgrade-"));
  file = join(folder, "chockside.db");
});
afterEach(async () => {
  await test?.close();
  test = undefined;
  rmSync(folder, { recursive: true, force: true });
});

describe.each(names)("a database as it was kept: %s", (name) => {
  it("[OPS-1] is migrated to this version and continues where it was", async () => {
    writeFileSync(file, gunzipSync(readFileSync(join(FIXTURES, name))));
    const store = new SqliteEventStore(openDatabase(file, START));
    const directory = await PrismaDirectory.open(file);
    const before = await store.sessions(10);
    const inside = INSIDE[name];
    if (!inside) throw new Error(`nobody says what ${name} holds`);
    expect(before.map((row) => row.stage).sort()).toEqual(["closed", inside.open].sort());
    for (const row of before) {
      const lines = (await store.read(row.id, 0, 1_000)).map((e) => e.body);
      expect(verify(lines, claimOf(row), sha256)).toMatchObject({ ok: true, events: row.headSeq });
    }
    const closed = before.find((row) => row.stage === "closed");
    if (!closed) throw new Error("no closed session");
    const { state: ended } = await replay(store, closed);
    expect(ended.engines.map((e) => e.life.is)).toEqual(Array(4).fill("stable"));
    if (inside.cockpit === "Ada") expect(canonical(ended)).toBe(kept("four-engines-1.state.txt"));

    test = await testServer({ store, directory, demo: true });
    const { app } = test;
    const device = { id: "di-tablet", name: "Tablet" };
    const reply = await app.inject({
      method: "POST",
      url: "/api/sign-in",
      payload: { handle: inside.handle, pin: inside.pin, device },
    });
    expect(reply.statusCode).toBe(200);
    const headers = bearer(reply.json().token);
    const open = before.find((row) => row.stage === inside.open);
    const { state } = (await app.inject({ url: `/api/sessions/${open?.id}`, headers })).json();
    expect(state).toMatchObject({ stage: inside.open, posts: { cockpit: { name: inside.cockpit } } });
    expect(state.holds).toHaveLength(1);
    expect((await app.inject({ url: "/health/ready" })).statusCode).toBe(200);
    await store.close();
    await directory.close();
  });
});

it("[OPS-1] there is such a database of the first shape, and of each with a change that needs one", () => {
  expect(names).toEqual(Object.keys(INSIDE));
});

it("[OPS-1, STN-1] [HSE-8] an aircraft of before the register is taken over, and a hold of its session stands at it", async () => {
  writeFileSync(file, gunzipSync(readFileSync(join(FIXTURES, "schema-7.sqlite.gz"))));
  const store = new SqliteEventStore(openDatabase(file, START));
  const directory = await PrismaDirectory.open(file);
  test = await testServer({ store, directory, demo: true });
  const { app } = test;
  const payload = { handle: "merryn", pin: "925364", device: { id: "m-tablet", name: "Tablet" } };
  const { token } = (await app.inject({ method: "POST", url: "/api/sign-in", payload })).json();
  const headers = bearer(token);
  const standing = await app.inject({ url: "/api/aircraft/QX-KIV/standing", headers });
  expect(standing.json().items).toMatchObject([{ item: { is: "hold", note: "fuel truck ahead" } }]);
  const aircraft = await app.inject({ url: "/api/aircraft/QX-KIV", headers });
  const expected = {
    id: "QX-KIV",
    typeId: "kestle-four",
    typeVersion: 1,
    fitted: [],
    retired: false,
    bar: null,
  };
  expect(aircraft.json()).toMatchObject({ ...expected, name: "Morning Tide", stand: null, revision: 1 });
  await store.close();
  await directory.close();
});

it("[OPS-1] [CUR-10] the date that was kept of each person becomes a currency that bars every post", async () => {
  // Schema 10: Ada to the end of 2027-03-31, Bo to 15:00 on 2026-05-02, and Cy without a date.
  writeFileSync(file, gunzipSync(readFileSync(join(FIXTURES, "schema-10-dates.db.gz"))));
  openDatabase(file, START).close();
  const directory = await PrismaDirectory.open(file);
  const kinds = await directory.register.all("currency");
  expect(kinds).toMatchObject([
    { revision: 1, by: "program", body: { id: "training-until", retired: false } },
  ]);
  expect(Object.values(kinds[0]?.body.needs ?? {})).toEqual(["bars", "bars", "bars", "bars"]);
  const dates = (await directory.currencies.dates()).map((d) => [d.personId, d.kind, d.until]);
  expect(dates.sort()).toEqual([
    ["ada", "training-until", "2027-03-31"],
    // Never later than it was.
    ["bo", "training-until", "2026-05-01"],
    ["cy", "training-until", "2199-12-31"],
  ]);
  expect((await directory.people()).map((p) => p.handle)).toEqual(["ada", "bo", "cy"]);
  await directory.close();
});

it("[OPS-1, CHP-4] checkpoints kept in one are good with the key of their day, and the record continues them", async () => {
  writeFileSync(file, gunzipSync(readFileSync(join(FIXTURES, "schema-5.sqlite.gz"))));
  const store = new SqliteEventStore(openDatabase(file, START));
  for (const { id } of await store.sessions(10)) {
    const [checkpoint] = await store.checkpoints(id);
    if (!checkpoint) throw new Error(`${id} has no checkpoint`);
    const { note, size, publicKey } = checkpoint;
    const opened = openCheckpoint(note, [fromHex(publicKey)], noteTools);
    const tree = new GrowingTree(noteTools.hash);
    for (const { body } of await store.read(id, 0, size)) tree.add(utf8(body));
    expect(opened).toMatchObject({ session: id, size });
    expect(toHex(opened?.root ?? new Uint8Array())).toBe(toHex(tree.root()));
  }
  await store.close();
});
