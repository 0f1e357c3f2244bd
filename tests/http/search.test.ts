import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Question, Writings } from "../../server/history/writings.ts";
import { MemoryEventStore } from "../../server/store/memory-events.ts";
import { MemorySearchIndex } from "../../server/store/memory-search-index.ts";
import type { Moved } from "../../server/store/moves.ts";
import type { SearchIndex } from "../../server/store/search-index.ts";
import { SqliteSearchIndex } from "../../server/store/sqlite-search-index.ts";
import { folded } from "../../shared/history/written/fold.ts";
import type { Written } from "../../shared/history/written/written.ts";
import type { Action } from "../../shared/protocol/commands.ts";
import { REHEARSAL_ID, rehearsedAircraft } from "../../shared/protocol/rehearsal.ts";
import { outcomesOf } from "../../shared/words/outcomes.ts";
import { SPOKEN } from "../../shared/words/spoken.ts";
import { everything } from "../store/contract-index.ts";
import { bearer, planned, signIn, type TestServer, testServer } from "./test-server.ts";

const store = new MemoryEventStore();
const index = new MemorySearchIndex();
let server: TestServer;
let headers: Record<string, string>;
let session: string;
let commands = 0;

const ask = async (query: string) => {
  const reply = await server.app.inject({ url: `/api/search?${query}`, headers });
  return {
    status: reply.statusCode,
    body: reply.json() as { found: Written[]; next: string | null; unread: number },
  };
};
const found = async (query: string) =>
  (await ask(query)).body.found.map(
    ({ kind, words, refused }) => `${kind} ${words ?? refused?.reason ?? ""}`,
  );

async function act(handle: string, action: Action, to = session): Promise<string> {
  commands += 1;
  const person = await server.services.directory.personByHandle(handle);
  if (!person) throw new Error(`no ${handle}`);
  const { id, name, mayHold } = person;
  const command = { v: 1, session: to, clientAt: 5, action } as const;
  const given = { ...command, id: `00000000-0000-4000-8000-7${String(commands).padStart(11, "0")}` };
  server.hand.setWall(1_000);
  return (await server.services.sessions.command({ id, name, mayHold, device: `${handle}-tablet` }, given))
    .status;
}

const ALL: Question = {
  ...{ words: "", aircraft: null, kind: null, from: null, to: null, before: null, limit: 1_000 },
};

beforeAll(async () => {
  server = await testServer({ store, index });
  headers = bearer(await signIn(server.app, "ada"));
  session = (await planned(server.app, await signIn(server.app, "fay"), { place: "Tregenna apron" })).id;
  for (const [who, post] of [
    ["ada", "cockpit"],
    ["bo", "fireGuard"],
    ["di", "supervisor"],
  ] as const)
    await act(who, { type: "claimPost", post });
  await act("bo", {
    type: "writeDefect",
    words: "Cowling latch: looseness felt",
    engine: 2,
    barsStart: false,
  });
  await act("bo", { type: "send", kind: "hold", channel: "panel", note: "Perro en la plataforma" });
  const refused = await act("ada", {
    type: "send",
    kind: "release",
    channel: "panel",
    ref: 1,
    note: "Dog is gone",
  });
  expect(refused).toBe("refused");
});
afterAll(() => server.close());

describe("the search", () => {
  it("[HIS-27] finds places, posts, words of stops, defects and refusals, with who and where", async () => {
    expect(await found("q=tregenna")).toEqual(["plan Tregenna apron"]);
    expect(await found("q=LATCH%20cowl")).toEqual(["defect Cowling latch: looseness felt"]);
    expect(await found("q=perro")).toEqual(["stop Perro en la plataforma"]);
    expect(await found("q=dog")).toEqual(["refusal Dog is gone"]);
    const [defect] = (await ask("q=latch")).body.found;
    expect(defect).toMatchObject({ session, aircraft: "CH-TST", engine: 2, by: "Bo", post: "fireGuard" });
    expect(await found("kind=post")).toHaveLength(3);
  });

  it("[HIS-27] finds a refusal by what it said in either language", async () => {
    const [refusal] = (await ask("kind=refusal")).body.found;
    const reason = refusal?.refused?.reason;
    if (reason === undefined) throw new Error("a refusal is found");
    for (const say of Object.values(SPOKEN)) {
      const [one = "", two = ""] = folded(outcomesOf(say).anyRefusal(reason)).filter((w) => w.length > 3);
      expect(await found(`kind=refusal&q=${one}%20${two}`)).toEqual(["refusal Dog is gone"]);
    }
  });

  it("[HIS-28] narrows by what the address says, and gives a page at a time", async () => {
    const whole = await found("");
    expect(whole.length).toBeGreaterThan(6);
    const paged: string[] = [];
    for (let next: string | null = ""; next !== null; ) {
      const { body } = await ask(`limit=2${next ? `&before=${next}` : ""}`);
      paged.push(
        ...body.found.map(({ kind, words, refused }) => `${kind} ${words ?? refused?.reason ?? ""}`),
      );
      next = body.next;
    }
    expect(paged).toEqual(whole);
    expect(await found("aircraft=CH-OTH")).toEqual([]);
    const day = new Date(server.services.clock.now()).toISOString().slice(0, 10);
    expect(await found(`from=${day}&to=${day}`)).toEqual(whole);
    expect(await found("to=2020-01-01")).toEqual([]);
    for (const wrong of ["before=1.2", "kind=lie", "from=yesterday", "limit=101", `q=${"x".repeat(201)}`])
      expect((await ask(wrong)).status, wrong).toBe(400);
  });

  it("[HIS-27] leaves rehearsals out", async () => {
    const [row, [event]] = [await store.session(session), await store.read(session, 0, 1)];
    if (!row || !event) throw new Error("the session is stored");
    const like = { ...row, id: `${REHEARSAL_ID}1`, code: "R-TESTAA", planCommand: "r", headSeq: 1 };
    await store.append({ expected: 0, events: [event], row: like });
    await store.append({
      expected: 0,
      events: [event],
      row: {
        ...like,
        id: "record-1",
        code: "R",
        planCommand: "q",
        aircraft: rehearsedAircraft("CH-TST", "R-A"),
      },
    });
    expect(await found("kind=plan")).toEqual(["plan Tregenna apron"]);
    expect((await ask("")).body.unread).toBe(0);
  });

  it("[HIS-30] keeps event by event what it has when it is built again, in whatever store", async () => {
    const folder = mkdtempSync(join(tmpdir(), "chockside-rebuilt-"));
    const live = await everything(index, 3);
    expect(live.length).toBeGreaterThan(6);
    for (const again of [new MemorySearchIndex(), new SqliteSearchIndex(join(folder, "chockside.db"))]) {
      const writings = new Writings({
        store,
        index: again,
        names: server.services.names,
        log: { error() {} },
      });
      await writings.find(ALL);
      expect(await everything(again, 4)).toEqual(live);
      expect(await again.heads()).toEqual(await index.heads());
      await writings.close();
      await again.close();
    }
    rmSync(folder, { recursive: true, force: true });
  });

  it("[HIS-30] says how many sessions it has not read yet, and reads them in the background", async () => {
    const [head] = (await store.moved(null)).heads.filter(({ id }) => id === session);
    const [event] = await store.read(session, 0, 1);
    if (!head || !event) throw new Error("the session is stored");
    const many = Array.from({ length: 3 }, (_, i) => ({ ...head, id: `s-${i}`, headSeq: 1_999 }));
    const again = new MemorySearchIndex();
    const writings = new Writings({
      store: {
        moved: async () => ({ all: true, heads: many, gone: [], mark: "now" }),
        read: async (_id, since, limit) =>
          Array.from({ length: limit }, (_, i) => ({ ...event, seq: since + i + 1, type: "present" })),
      },
      index: again,
      names: server.services.names,
      log: { error() {} },
    });
    expect((await writings.find(ALL)).unread).toBe(1);
    while ((await again.heads()).size < 3) await new Promise((go) => setImmediate(go));
    expect((await writings.find(ALL)).unread).toBe(0);
    await writings.close();
  });

  it("[HIS-39] reads before an answer what moved since the last one, however many sessions there are", async () => {
    const head = { headSeq: 1, aircraft: "CH-TST", stage: "closed" };
    const known = new MemorySearchIndex();
    const asked: (readonly string[] | undefined)[] = [];
    const counted: SearchIndex = {
      heads: (ids) => {
        asked.push(ids);
        return known.heads(ids);
      },
      put: (...more) => known.put(...more),
      forget: (id) => known.forget(id),
      find: (what) => known.find(what),
      keepStarts: (kept) => known.keepStarts(kept),
      startsOf: (ids) => known.startsOf(ids),
      startHeads: (ids) => known.startHeads(ids),
      close: () => known.close(),
    };
    const moves: Moved[] = [
      {
        all: true,
        heads: Array.from({ length: 1_000 }, (_, i) => ({ ...head, id: `s-${i}` })),
        gone: [],
        mark: "1",
      },
      { all: false, heads: [], gone: [], mark: "2" },
      { all: false, heads: [{ ...head, id: "s-7", headSeq: 2 }], gone: ["s-8"], mark: "3" },
    ];
    const marks: (string | null)[] = [];
    const [event] = await store.read(session, 0, 1);
    if (!event) throw new Error("the session is stored");
    let reads = 0;
    const writings = new Writings({
      store: {
        moved: async (mark) => {
          marks.push(mark);
          const next = moves.shift();
          if (!next) throw new Error("asked too often");
          return next;
        },
        read: async (_id, since, limit) => {
          reads += 1;
          return Array.from({ length: limit }, (_, i) => ({ ...event, seq: since + i + 1, type: "present" }));
        },
      },
      index: counted,
      names: server.services.names,
      log: { error() {} },
    });
    expect((await writings.find(ALL)).unread).toBe(0);
    expect([reads, (await known.heads()).size]).toEqual([1_000, 1_000]);
    asked.length = 0;
    await writings.find(ALL);
    expect([reads, asked]).toEqual([1_000, [[]]]);
    await writings.find(ALL);
    expect([reads, asked]).toEqual([1_001, [[], ["s-7"], ["s-7"]]]);
    expect(marks).toEqual([null, "1", "2"]);
    expect([(await known.heads()).get("s-7"), (await known.heads()).has("s-8")]).toEqual([2, false]);
    // A look that fails is made again, from the same mark.
    await expect(writings.find(ALL)).rejects.toThrow("asked too often");
    expect(marks.at(-1)).toBe("3");
    await writings.close();
  });

  it("[HIS-29] finds a person by name at their acts, and no more once the name is erased", async () => {
    const by = (query: string) => ask(query).then(({ body }) => body.found.map((w) => `${w.kind} ${w.by}`));
    expect(await by("q=bo")).toEqual(expect.arrayContaining(["defect Bo", "stop Bo", "post Bo"]));
    expect(await by("q=bo&kind=defect")).toEqual(["defect Bo"]);
    expect(JSON.stringify(await everything(index, 100))).not.toMatch(/"(by|name)\\?":\\?"Bo/);
    const { directory } = server.services;
    await directory.personal.erase("bo", []);
    expect(await by("q=bo")).toEqual([]);
    expect(await by("q=latch")).toHaveLength(1);
  });

  it("[HIS-30] loses a session that was removed after its time", async () => {
    for (const who of ["di", "ada"]) await act(who, { type: "abandon", reason: "Fog" });
    expect(await found("q=fog")).toContain("reason Fog");
    await store.remove(session, { id: session, at: 1, note: "n", publicKey: "k" });
    expect(await found("kind=plan")).toEqual([]);
  });
});
