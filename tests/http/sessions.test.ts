import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { CODE_PATTERN, randomIds } from "../../server/ids.ts";
import type { Action } from "../../shared/protocol/commands.ts";
import { eventSchema } from "../../shared/protocol/events.ts";
import { FOUR } from "../spec/aircraft.ts";
import {
  APPROVED,
  bearer,
  moveTo,
  NO_CREW,
  planBody,
  planned,
  signIn,
  type TestServer,
  testServer,
} from "./test-server.ts";

let test: TestServer;
let token: string;
beforeEach(async () => {
  test = await testServer();
  token = await signIn(test.app, "di");
});
afterEach(() => test.close());

const get = (url: string) => test.app.inject({ url, headers: bearer(token) });
const plan = (payload: unknown) =>
  test.app.inject({
    method: "POST",
    url: "/api/sessions",
    headers: bearer(token),
    payload: payload as object,
  });
const nameOf = (reply: { json(): { type: string } }) => reply.json().type.split(":").at(-1);

describe("the list of sessions", () => {
  it("[INT-25] comes a page at a time without a gap or a double while more are planned, and refuses an unknown filter", async () => {
    const fay = await signIn(test.app, "fay");
    const ids: string[] = [];
    for (let n = 0; n < 7; n += 1) {
      ids.push((await planned(test.app, fay)).id);
      // Two of one moment are kept apart by their ids.
      if (n % 2) await test.hand.leap(1_000);
    }
    const seen: { id: string; closedAt: number | null }[] = [];
    let next: string | undefined = "/api/sessions?limit=2";
    while (next !== undefined) {
      const reply = await get(next);
      expect(reply.json().length).toBeLessThanOrEqual(2);
      seen.push(...reply.json());
      next = /^<(.*)>; rel="next"$/.exec(String(reply.headers.link ?? ""))?.[1];
      await planned(test.app, fay);
    }
    expect(seen.map((s) => s.id).sort()).toEqual([...ids].sort());
    expect(seen.every((s) => s.closedAt === null)).toBe(true);
    for (const query of ["?stage=plan", "?limit=0", "?limit=201", "?before=x", "?limit=2&limit=3"])
      expect(nameOf(await get(`/api/sessions${query}`))).toBe("malformed");
  });
});

describe("the directory", () => {
  it("[SRV-16] lists people who may hold posts, without what is not for everybody", async () => {
    const people = (await get("/api/people")).json();
    expect(people).toContainEqual({ id: "ada", name: "Ada", mayHold: ["cockpit"] });
    expect(people.map((p: { id: string }) => p.id)).not.toContain("gone");
    expect(JSON.stringify(people)).not.toContain("argon2");
  });

  it("[HSE-4] [TYP-7] lists every aircraft with what bars it from planning", async () => {
    await test.services.directory.addTypes(
      [
        { ...APPROVED, version: 2, name: "Four, revised" },
        { ...FOUR, version: 3, name: "Four, a draft" },
      ],
      1,
    );
    await test.services.seals.sealAsFound();
    const bar = { is: "superseded", version: 1, newest: 2 };
    expect((await get("/api/aircraft")).json()).toMatchObject([
      {
        id: "CH-TST",
        name: "Test bird",
        typeId: "four",
        typeVersion: 1,
        typeName: APPROVED.name,
        newest: 2,
        bar,
      },
    ]);
    const reply = await plan(planBody());
    expect(reply.json().errors).toEqual([
      {
        path: "aircraft",
        message:
          "version 2 of its type is approved and it is on version 1: a supervisor looks at what changes and moves it",
      },
    ]);
  });
});

describe("planning", () => {
  it("[SRV-4] makes a session that everybody finds, newest first", async () => {
    const first = await planned(test.app, token, { crew: { ...NO_CREW, cockpit: "ada", supervisor: "di" } });
    await test.hand.pass(1_000);
    const second = await planned(test.app, token);
    const list = (await get("/api/sessions")).json();
    expect(list.map((s: { id: string }) => s.id)).toEqual([second.id, first.id]);
    expect(list[1]).toEqual({
      id: first.id,
      closedAt: null,
      code: first.code,
      aircraft: "CH-TST",
      typeName: FOUR.name,
      place: "North ramp",
      stage: "plan",
      createdAt: test.hand.clock.now() - 1_000,
      headSeq: 1,
      needs: 0,
      offered: [],
    });
    const { head, serverNow, state } = (await get(`/api/sessions/${first.id}`)).json();
    expect([head, serverNow]).toEqual([1, test.hand.clock.now()]);
    expect(state).toMatchObject({
      id: first.id,
      type: APPROVED,
      order: FOUR.defaultOrder,
      crew: { ...NO_CREW, cockpit: { id: "ada", name: "Ada" }, supervisor: { id: "di", name: "Di" } },
    });
  });

  it("[SRV-4] runs on the newest version of the type, whole, whatever comes later", async () => {
    await test.services.directory.addTypes([{ ...APPROVED, version: 2 }], 1);
    await test.services.seals.sealAsFound();
    await moveTo(test.app, await signIn(test.app, "di"), 2);
    const { id } = await planned(test.app, token);
    await test.services.directory.addTypes([{ ...APPROVED, version: 3 }], 1);
    expect((await get(`/api/sessions/${id}`)).json().state.type.version).toBe(2);
  });

  it("[SRV-4, DEF-2] brings the aircraft's open defects along from its last session, not the closed ones", async () => {
    const first = (await planned(test.app, token)).id;
    const di = { id: "di", name: "Di", device: "di-tablet", mayHold: ["supervisor" as const] };
    const say = (session: string, n: number, action: Action) => {
      const id = `11111111-0000-4000-8000-${String(n).padStart(12, "0")}`;
      return test.services.sessions.command(di, { v: 1, id, session, clientAt: 5, action });
    };
    await say(first, 1, { type: "claimPost", post: "supervisor" });
    await say(first, 2, { type: "writeDefect", words: "oil at cowl flap", engine: 2, barsStart: false });
    await say(first, 3, { type: "writeDefect", words: "loose panel", barsStart: true });
    const written = (await test.services.sessions.get(first)).state.defects;
    expect(written).toHaveLength(2);
    await say(first, 4, { type: "closeDefect", defect: written[1]?.id ?? "", reason: "fastened" });
    await test.hand.leap(60_000);
    const second = (await planned(test.app, token)).id;
    await test.hand.leap(60_000);
    // Two sessions later it is still there, unchanged.
    const third = (await planned(test.app, token)).id;
    for (const session of [second, third]) {
      const { defects } = (await get(`/api/sessions/${session}`)).json().state;
      expect(defects).toHaveLength(1);
      expect(defects[0]).toMatchObject({ id: written[0]?.id, words: "oil at cowl flap", engine: 2 });
      expect(defects[0].by).toMatchObject({ at: written[0]?.by.at, name: "Di" });
    }
  });

  it.each([
    ["an aircraft nobody has", { aircraft: "CH-XXX" }, "aircraft"],
    ["an engine the type lacks", { order: [1, 5] }, "order"],
    ["an engine twice", { order: [1, 1] }, "order"],
    ["a person nobody knows", { crew: { ...NO_CREW, cockpit: "zoe" } }, "crew.cockpit"],
    ["a person no longer active", { crew: { ...NO_CREW, cockpit: "gone" } }, "crew.cockpit"],
    ["a person not qualified", { crew: { ...NO_CREW, fireGuard: "ada" } }, "crew.fireGuard"],
    [
      "one person for two posts",
      { crew: { ...NO_CREW, cockpit: "fay", fireGuard: "fay" } },
      "crew.fireGuard",
    ],
  ])("[SRV-4] refuses %s and says where", async (_what, over, path) => {
    const reply = await plan(planBody(over));
    expect(reply.statusCode).toBe(422);
    expect(reply.headers["content-type"]).toMatch(/^application\/problem\+json/);
    expect(nameOf(reply)).toBe("faultyPlan");
    expect(reply.json().errors.map((e: { path: string }) => e.path)).toEqual([path]);
    expect((await get("/api/sessions")).json()).toEqual([]);
  });

  it("[SRV-4] names every fault of a plan at once", async () => {
    const crew = { ...NO_CREW, cockpit: "zoe", fireGuard: "ada" };
    const reply = await plan(planBody({ order: [9 - 1, 9 - 1], crew }));
    expect(reply.json().errors.map((e: { path: string }) => e.path)).toEqual([
      "order",
      "crew.cockpit",
      "crew.fireGuard",
    ]);
  });

  it.each([
    ["no command id", { commandId: undefined }, "body.commandId"],
    ["a command id that is none", { commandId: "1" }, "body.commandId"],
    ["an empty place", { place: "  " }, "body.place"],
    ["a place with a line break", { place: "stand\n4" }, "body.place"],
    ["a place that reverses what follows", { place: "stand \u202e4" }, "body.place"],
    ["a place too long", { place: "x".repeat(81) }, "body.place"],
    ["an order of nothing", { order: [] }, "body.order"],
    ["a power source of its own", { powerSource: "sun" }, "body.powerSource"],
    ["a crew without a post", { crew: { cockpit: null } }, "body.crew"],
    ["a field nobody knows", { note: "x" }, "note"],
  ])("[SRV-2] refuses %s and says where", async (_what, over, path) => {
    const reply = await plan({ ...planBody(), ...over });
    expect(reply.statusCode).toBe(400);
    expect(nameOf(reply)).toBe("malformed");
    expect(reply.json().detail).toContain(path);
  });

  it("[SRV-2] refuses what is not JSON, or too large", async () => {
    const headers = { ...bearer(token), "content-type": "application/json" };
    const send = (payload: string, type = "application/json") =>
      test.app.inject({
        method: "POST",
        url: "/api/sessions",
        headers: { ...headers, "content-type": type },
        payload,
      });
    const broken = await send("{");
    expect([broken.statusCode, nameOf(broken)]).toEqual([400, "malformed"]);
    const large = await send(JSON.stringify({ ...planBody(), place: "x".repeat(70_000) }));
    expect([large.statusCode, nameOf(large)]).toEqual([413, "tooLarge"]);
    const xml = await send("<plan/>", "text/xml");
    expect([xml.statusCode, nameOf(xml)]).toEqual([415, "wrongMediaType"]);
    for (const reply of [broken, large, xml])
      expect(reply.headers["content-type"]).toMatch(/^application\/problem\+json/);
  });

  it("[SRV-6] keeps markup as the plain text it is", async () => {
    const place = `<img src=x onerror="alert(1)"> & 'stand'`;
    const { id } = await planned(test.app, token, { place });
    const reply = await get(`/api/sessions/${id}`);
    expect(reply.json().state.place).toBe(place);
    expect(reply.headers["content-type"]).toMatch(/^application\/json/);
    expect(reply.headers["x-content-type-options"]).toBe("nosniff");
  });

  it("[SRV-5] sent again gives the same session, also both at once", async () => {
    const body = planBody();
    const replies = await Promise.all([plan(body), plan(body), plan(body)]);
    replies.push(await plan(body));
    for (const reply of replies) expect(reply.statusCode).toBe(201);
    expect(new Set(replies.map((r) => r.body)).size).toBe(1);
    expect((await get("/api/sessions")).json()).toHaveLength(1);
  });

  it("[SRV-5] with the id of another plan is refused", async () => {
    const body = planBody();
    await plan(body);
    const reply = await plan({ ...body, place: "South ramp" });
    expect([reply.statusCode, nameOf(reply)]).toEqual([409, "idReused"]);
  });
});

describe("joining", () => {
  it("[SRV-7] finds a session by its code, whatever the case", async () => {
    const { id, code } = await planned(test.app, token);
    expect(code).toMatch(CODE_PATTERN);
    expect((await get(`/api/join/${code.toLowerCase()}`)).json()).toEqual({ id, aircraft: "CH-TST" });
  });

  it("[SRV-7] says when no session has the code, and what a code looks like", async () => {
    const { code } = await planned(test.app, token);
    const other = code === "ACDEFG" ? "GFEDCA" : "ACDEFG";
    const missing = await get(`/api/join/${other}`);
    expect([missing.statusCode, nameOf(missing)]).toEqual([404, "notFound"]);
    const wrong = await get("/api/join/O0I1L5");
    expect(wrong.statusCode).toBe(400);
    expect(wrong.json().detail).toContain("six characters");
  });

  it("[SRV-7] has codes of six characters without look-alikes", () => {
    const used = new Set(Array.from({ length: 500 }, () => randomIds.code()).join(""));
    for (const alike of "OQ0I1LS5Z2B8") expect(used.has(alike), alike).toBe(false);
    expect(randomIds.code()).toHaveLength(6);
  });
});

describe("events", () => {
  it("[SRV-8] are given in order, from a number on, no more than asked", async () => {
    const { id } = await planned(test.app, token);
    const di = { id: "di", name: "Di", device: "di-tablet", mayHold: ["supervisor" as const] };
    for (const n of [1, 2, 3])
      await test.services.sessions.command(di, {
        v: 1,
        id: `00000000-0000-4000-8000-00000000000${n}`,
        session: id,
        clientAt: 5,
        action: { type: "send", kind: "hold", channel: "panel" },
      });
    const all = (await get(`/api/sessions/${id}/events`)).json();
    const stored = (await test.services.store.read(id, 0, 100)).map((e) => e.seq);
    expect(stored.length).toBeGreaterThan(3);
    expect(all.head).toBe(stored.length);
    expect(all.events.map((e: { seq: number }) => e.seq)).toEqual(stored);
    for (const event of all.events) expect(eventSchema.parse(event)).toEqual(event);
    const part = (await get(`/api/sessions/${id}/events?since=1&limit=2`)).json();
    expect([part.head, part.events.map((e: { seq: number }) => e.seq)]).toEqual([all.head, [2, 3]]);
    const { holds, alerts } = (await get(`/api/sessions/${id}`)).json().state;
    expect(holds).toHaveLength(3);
    const needs = 3 + alerts.filter((a: { active: boolean }) => a.active).length;
    expect((await get("/api/sessions")).json()[0]).toMatchObject({ headSeq: all.head, needs });
  });

  it.each(["since=-1", "limit=0", "limit=1001", "since=x", "from=1"])(
    "[SRV-2] are not given for %s",
    async (query) => {
      const { id } = await planned(test.app, token);
      expect((await get(`/api/sessions/${id}/events?${query}`)).statusCode).toBe(400);
    },
  );

  it.each(["", "/events", "/evidence"])(
    "[SRV-1] of no session: a problem that says so (%s)",
    async (rest) => {
      const reply = await get(`/api/sessions/none${rest}`);
      expect([reply.statusCode, nameOf(reply)]).toEqual([404, "notFound"]);
      expect(reply.headers["content-type"]).toMatch(/^application\/problem\+json/);
      expect((await get(`/api/sessions/..%2f${rest}`)).statusCode).toBe(400);
    },
  );
});
