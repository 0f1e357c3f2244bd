import { readFileSync } from "node:fs";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { checkFile } from "../../server/evidence/check-file.ts";
import { erase } from "../../server/personal/erase.ts";
import { personalDataOf } from "../../server/personal/personal-data.ts";
import { MemoryEventStore } from "../../server/store/memory-events.ts";
import { pseudonymOf } from "../../shared/evidence/pseudonyms.ts";
import { readSealed } from "../../shared/evidence/read.ts";
import type { Action } from "../../shared/protocol/commands.ts";
import type { Post } from "../../shared/protocol/posts.ts";
import { sha256 } from "../spec/given.ts";
import {
  bearer,
  crewDirectory,
  NO_CREW,
  planned,
  signIn,
  type TestServer,
  testServer,
} from "./test-server.ts";

const NAMES = ["Ada", "Bo", "Di"];
let store: MemoryEventStore;
let test: TestServer;
let session: string;
let commands = 0;

async function begin(directory = crewDirectory()) {
  test = await testServer({ store, directory: await directory });
  return test;
}
beforeEach(async () => {
  store = new MemoryEventStore();
  await begin();
  const crew = { ...NO_CREW, cockpit: "ada", fireGuard: "bo" };
  session = (await planned(test.app, await signIn(test.app, "di"), { crew })).id;
  await say("ada", ["cockpit"], { type: "claimPost", post: "cockpit" });
  await say("bo", ["fireGuard"], { type: "claimPost", post: "fireGuard" });
  await say("di", ["supervisor"], { type: "claimPost", post: "supervisor" });
  await say("di", ["supervisor"], { type: "writeDefect", words: "Tyre worn", barsStart: false });
  await say("ada", ["cockpit"], { type: "claimPost", post: "supervisor" });
  await say("ada", ["cockpit"], { type: "send", kind: "hold", channel: "panel" });
});
afterEach(() => test.close());

function say(id: string, mayHold: Post[], action: Action) {
  commands += 1;
  const command = `00000000-0000-4000-8000-4${String(commands).padStart(11, "0")}`;
  const name = `${id[0]?.toUpperCase()}${id.slice(1)}`;
  const person = { id, name, device: `${id}-tablet`, mayHold };
  return test.services.sessions.command(person, { v: 1, id: command, session, clientAt: 5, action });
}
const bodies = async () => (await store.read(session, 0, 1_000)).map((e) => e.body);
/** Two people end the session: holds stand that only their own people could leave behind. */
const over = async () => {
  for (const [id, post] of [
    ["ada", "cockpit"],
    ["di", "supervisor"],
  ] as const)
    await say(id, [post], { type: "abandon", reason: "done for today" });
};
const exported = async (as = "ndjson") => {
  const token = await signIn(test.app, "ed");
  const url = `/api/sessions/${session}/evidence?as=${as}`;
  return (await test.app.inject({ url, headers: bearer(token) })).body;
};
const person = async (id: string) => {
  const found = await test.services.directory.person(id);
  if (!found) throw new Error(`no ${id}`);
  return found;
};

describe("names in the evidence", () => {
  it("[PRV-1] are not in the sealed bytes, but shown to whoever may see the session", async () => {
    const all = await bodies();
    for (const body of all) for (const name of NAMES) expect(body).not.toContain(`"${name}"`);
    expect(all.filter((body) => body.includes('"person:')).length).toBeGreaterThan(5);
    const { state } = await test.services.sessions.get(session);
    expect([state.posts.cockpit?.name, state.defects[0]?.by.name, state.crew.fireGuard?.name]).toEqual([
      "Ada",
      "Di",
      "Bo",
    ]);
    const token = await signIn(test.app, "ed");
    const { events } = (
      await test.app.inject({ url: `/api/sessions/${session}/events`, headers: bearer(token) })
    ).json();
    expect(events[0].actor.name).toBe("Di");
    expect(events[0].fact.crew.cockpit).toEqual({ id: "ada", name: "Ada" });
    expect(await exported("csv")).toContain(",Ada,cockpit,ada-tablet,");
  });

  it("[PRV-1] are the same after a restart, and in every server's eyes", async () => {
    const before = (await test.services.sessions.get(session)).state;
    const directory = test.services.directory;
    await test.close();
    test = await testServer({ store, directory });
    const after = (await test.services.sessions.get(session)).state;
    expect(after.posts).toEqual(before.posts);
    expect(after.defects).toEqual(before.defects);
    // A second server, started before the first one met a new person.
    const other = await testServer({ store: new MemoryEventStore(), directory });
    await test.services.names.know([{ personId: "zoe", name: "Zoe" }]);
    const event = test.services.names.pseudonymise({
      ...{ v: 1, session, seq: 1, at: 1, command: null, digest: null, clientAt: null, cause: null },
      actor: { kind: "person", id: "zoe", name: "Zoe", post: null, device: "d" },
      fact: { type: "restarted" },
    });
    await other.services.names.loadFor([JSON.stringify(event)]);
    expect(JSON.parse(other.services.names.reveal(JSON.stringify(event))).actor.name).toBe("Zoe");
    await other.close();
  });

  it("[PRV-2] are opened by the export, each by what was sealed and by no other name", async () => {
    const text = await exported();
    expect(checkFile(text).ok).toBe(true);
    const { names } = JSON.parse(text.split("\n")[0] ?? "");
    expect(
      Object.values<{ name: string }>(names)
        .map((n) => n.name)
        .sort(),
    ).toEqual(NAMES);
    for (const [pseudonym, opening] of Object.entries<{ name: string; salt: string }>(names)) {
      expect(pseudonym).toMatch(/^person:[0-9a-f]{64}$/);
      expect(pseudonymOf(opening, sha256)).toBe(pseudonym);
      expect(opening.salt).toMatch(/^[0-9a-f]{32}$/);
    }
    expect(checkFile(text.replace('"name":"Ada"', '"name":"Eve"'))).toMatchObject({
      ok: false,
      says: "BAD line 1: Eve is not the name that was sealed",
    });
  });
});

describe("a whole start's events", () => {
  // A record of 166 events of four people, with clearances and their conditions.
  const [, ...lines] = readFileSync(
    new URL("../spec/fixtures/four-engines-1.ndjson", import.meta.url),
    "utf8",
  )
    .trimEnd()
    .split("\n");
  const events = lines.map((line) => readSealed(line).event);

  it("[PRV-1] replace every name by a pseudonym, whoever reported what, and get the same ones back", () => {
    const { names } = test.services;
    let hidden = 0;
    for (const event of events) {
      const sealed = names.pseudonymise(event);
      const text = JSON.stringify(sealed, (key, v) => (key === "aircraftType" ? undefined : v));
      expect(text).not.toMatch(/"(Ada|Bo|Cy|Di|Ed|Fay)"/);
      hidden += text.split('"person:').length - 1;
      expect(JSON.parse(names.reveal(JSON.stringify(sealed)))).toEqual(event);
    }
    const told = JSON.stringify(events).match(/"(Ada|Bo|Cy|Di|Ed|Fay)"/g);
    expect(told?.length).toBeGreaterThan(150);
    expect(hidden).toBe(told?.length);
  });
});

describe("erasing a person", () => {
  it("[PRV-3] takes the name out of everything shown, and not one byte out of the evidence", async () => {
    await over();
    const sealed = await bodies();
    const note = (await test.services.notary.at(session, sealed.length)).note;
    const token = await signIn(test.app, "ada");
    const { directory } = test.services;
    expect(await erase(store, directory, await person("ada"))).toEqual([]);
    await test.close();
    test = await testServer({ store, directory });

    expect(await directory.person("ada")).toBeNull();
    expect(await directory.personal.signIns("ada")).toEqual([]);
    expect((await test.app.inject({ url: "/api/me", headers: bearer(token) })).statusCode).toBe(401);
    expect(await bodies()).toEqual(sealed);
    const text = await exported();
    expect(checkFile(text, { checkpoints: [note] })).toMatchObject({
      ok: true,
      says: expect.stringContaining("1 of 3 people were erased"),
    });
    const { state } = await test.services.sessions.get(session);
    for (const shown of [text, await exported("csv"), JSON.stringify(state)])
      expect(shown).not.toContain("Ada");
    expect(state.crew.cockpit?.name).toMatch(/^Erased person [0-9a-f]{6}$/);
    expect(state.posts.cockpit?.name).toBe(state.crew.cockpit?.name);
    expect(state.crew.fireGuard?.name).toBe("Bo");
  });

  it("[PRV-3] waits for the end of every session they take part in", async () => {
    const { directory } = test.services;
    await expect(erase(store, directory, await person("bo"))).rejects.toThrow("close or abandon it first");
    expect(await directory.person("bo")).not.toBeNull();
    // A person who takes part in no session may be erased at once.
    expect(await erase(store, directory, await person("ed"))).toEqual([]);
  });

  it("[PRV-4] says which records hold the name in somebody's own words", async () => {
    await say("di", ["supervisor"], { type: "send", kind: "hold", channel: "panel", note: "Ada is late" });
    const seq = (await bodies()).findIndex((body) => body.includes("Ada is late")) + 1;
    await over();
    const left = await erase(store, test.services.directory, await person("ada"));
    expect(left[0]).toEqual({ session, seq });
    // The hold stands in the aircraft's own record too, with its note.
    expect(left.slice(1).every((one) => one.session.startsWith("record-"))).toBe(true);
  });
});

describe("everything about one person", () => {
  it("[PRV-5] is given as data: record, names, sign-ins and each of their events; no secret and nobody else", async () => {
    await signIn(test.app, "ada");
    const all = await personalDataOf(store, test.services.directory, await person("ada"));
    expect(all.person).toMatchObject({ id: "ada", handle: "ada", name: "Ada", mayHold: ["cockpit"] });
    expect(all.names).toEqual(["Ada"]);
    expect(all.signIns).toMatchObject([{ deviceId: "ada-tablet" }]);
    const [only, ...more] = all.sessions;
    // Her reports stand in the aircraft's own record too.
    expect(more.map((one) => one.session.startsWith("record-"))).toEqual([true]);
    expect(only).toMatchObject({ session, aircraft: "CH-TST", closed: false });
    const types = ((only?.events ?? []) as { what: { type: string } }[]).map((e) => e.what.type);
    expect(types).toEqual(expect.arrayContaining(["planned", "postTaken", "refused", "sent"]));
    expect(types).not.toContain("defectWritten");
    const text = JSON.stringify(all);
    for (const secret of ["pinHash", "argon2", "tokenHash", "Bo", "Di"]) expect(text).not.toContain(secret);
  });
});
