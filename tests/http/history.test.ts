import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { z } from "zod";
import { personAt, Stage } from "../../seed/crew/stage.ts";
import twin from "../../seed/types/penhale-twin.json" with { type: "json" };
import { EngineHistories } from "../../server/history/engines.ts";
import { StartHistories } from "../../server/history/starts.ts";
import type { EventStore } from "../../server/store/events.ts";
import { MemoryEventStore } from "../../server/store/memory-events.ts";
import { storeSession } from "../../server/store-session.ts";
import { startRowSchema } from "../../shared/history/row.ts";
import { readCsv } from "../../shared/house/lists/csv.ts";
import { aircraftTypeSchema } from "../../shared/types/schema.ts";
import { playOut } from "../seed/stage.ts";
import { bearer, signIn, type TestServer, testServer } from "./test-server.ts";

const DAY = 86_400_000;
const TWIN = aircraftTypeSchema.parse(twin);
const fitted = (...serials: (string | null)[]) =>
  serials.map((serial, i) => ({
    n: i + 1,
    engine: { serial, hours: null },
    propeller: { serial: null, hours: null },
    starter: null,
  }));

const store = new MemoryEventStore();
let server: TestServer;
let headers: object;
const ask = async (url: string) => {
  const reply = await server.app.inject({ url: `/api${url}`, headers: headers as Record<string, string> });
  return { status: reply.statusCode, body: reply.json(), media: reply.headers["content-type"] };
};

function begun(id: string, aircraft: string, nth: number, serials: readonly (string | null)[]): Stage {
  const stage = new Stage(TWIN, "groundPower", {
    id,
    aircraft,
    fitted: fitted(...serials),
    now: Date.UTC(2026, 0, 1, 9) + nth * DAY,
  });
  stage.everyoneClaims();
  return stage;
}
const methods = (events: EventStore): Pick<EventStore, "sessions" | "sessionsOf"> => ({
  sessions: (...of) => events.sessions(...of),
  sessionsOf: (...of) => events.sessionsOf(...of),
});
const keep = (stage: Stage, code: string) =>
  storeSession({ store, names: server.services.names }, stage, {
    code,
    planCommand: `plan-${code}`,
    createdAt: stage.events[0]?.at ?? 0,
  });

beforeAll(async () => {
  server = await testServer({ store });
  headers = bearer(await signIn(server.app, "ada"));
  const { register } = server.services.directory;
  const bare = (await register.one("aircraft", "CH-TST"))?.body;
  if (!bare) throw new Error("the test's directory has an aircraft");
  const entry = (id: string, revision: number, ...serials: (string | null)[]) => ({
    ...{ kind: "aircraft" as const, id, revision, at: 0, by: "console", reason: null },
    body: { ...bare, id, fitted: fitted(...serials) },
  });
  // E-2 was moved from CH-TST to CH-TWO.
  await register.append([
    entry("CH-TST", 2, "E-1", "E-2"),
    entry("CH-TST", 3, "E-1", null),
    entry("CH-TWO", 1, "E-9", "E-2"),
  ]);
  const script = { seed: 4, pace: 1, cart: "Knocker" };
  for (const [i, [aircraft, ...serials]] of [
    ["CH-TST", "E-1", "E-2"],
    ["CH-TWO", "E-9", "E-2"],
  ].entries()) {
    const stage = begun(`s-${i}`, aircraft ?? "", i, serials);
    playOut(stage, script);
    await keep(stage, `CODE-${i}`);
  }
});
afterAll(() => server.close());

describe("the history of aircraft and engines", () => {
  it("[HIS-11] gives an engine's starts by its serial, at whichever aircraft they were", async () => {
    const { body } = await ask("/engines/E-2/history");
    expect(body.rows.map((r: { aircraft: string }) => r.aircraft)).toEqual(["CH-TST", "CH-TWO"]);
    expect(body).toMatchObject({
      serial: "E-2",
      fitted: { aircraft: "CH-TWO", n: 2 },
      more: false,
      notes: [],
    });
    expect(body.figures.oilFirstS).toMatchObject({ unit: "s", worse: "high" });
    expect(body.figures.oilFirstS.source).toContain("catch");
    const gone = await ask("/engines/E-7/history");
    expect([gone.status, gone.body.type]).toEqual([404, "urn:chockside:problem:notFound"]);
  });

  it("[HIS-11] gives an aircraft's starts, with people by name", async () => {
    const { body } = await ask("/aircraft/CH-TST/history");
    expect(body.rows.map((r: { serial: string }) => r.serial).sort()).toEqual(["E-1", "E-2"]);
    expect(body.rows[0].crew.cockpit).toBe(personAt("cockpit").name);
    expect((await ask("/aircraft/CH-TST/notes")).body).toEqual([]);
    for (const path of ["history", "notes"]) expect((await ask(`/aircraft/NONE/${path}`)).status).toBe(404);
  });

  it("[HIS-44] answers alike from the events, from what is kept and from memory, by the route's schema", async () => {
    const paths = ["/aircraft/CH-TST/history", "/engines/E-2/history", "/aircraft/CH-TWO/notes"];
    const answers = async (app: TestServer["app"]) => {
      const all: unknown[] = [];
      for (const path of paths) {
        const reply = await app.inject({ url: `/api${path}`, headers: headers as Record<string, string> });
        all.push([reply.statusCode, reply.headers["content-type"], reply.json()]);
      }
      return all;
    };
    const fromEvents = await answers(server.app);
    expect(await answers(server.app)).toEqual(fromEvents);
    const { store: events, index, log, directory } = server.services;
    expect((await index.startHeads()).size).toBeGreaterThan(1);
    const anew = new StartHistories({
      store: { ...methods(events), read: () => Promise.reject(new Error("read from the events")) },
      ...{ index, log },
    });
    const histories = new EngineHistories(directory.register, anew);
    for (const id of ["CH-TST", "CH-TWO"])
      expect(await histories.aircraft(id)).toEqual(await server.services.histories.aircraft(id));
    const body = (await ask("/aircraft/CH-TST/history")).body;
    expect(z.array(startRowSchema).min(1).safeParse(body.rows).error).toBeUndefined();
    expect(Object.keys(body).sort()).toEqual(["aircraft", "figures", "more", "notes", "rows"]);
    expect(Object.keys(body.figures.oilFirstS).sort()).toEqual(["source", "unit", "worse"]);
  });

  it("[HIS-11] names people as they are known at the time of asking", async () => {
    const { names } = server.services;
    await names.know([{ personId: "p-cockpit", name: personAt("cockpit").name }]);
    const stage = begun("s-named", "CH-TST", 5, ["E-1", null]);
    playOut(stage, { seed: 4, pace: 1, cart: "Knocker" });
    await keep(stage, "CODE-N");
    const sealed = (await store.read("s-named", 0, 500)).map((e) => e.body).join();
    expect(sealed).not.toContain(personAt("cockpit").name);
    const crew = (histories: { crew: { cockpit: string } }[]) =>
      new Set(histories.map((r) => r.crew.cockpit));
    const { rows } = (await ask("/aircraft/CH-TST/history")).body;
    expect(crew(rows)).toEqual(new Set([personAt("cockpit").name]));
    // The rows are held as the sealed record has them: a name that is gone later is in no answer.
    const held = await server.services.histories.aircraft("CH-TST");
    expect(JSON.stringify(held.rows)).toMatch(/"cockpit":"person:[0-9a-f]{64}"/);
  });

  it("[HIS-11] gives both as CSV, with units and sources in the lines below the names", async () => {
    const url = "/api/engines/E-2/history?as=csv";
    const reply = await server.app.inject({ url, headers: headers as Record<string, string> });
    expect(reply.headers["content-type"]).toContain("text/csv");
    const read = readCsv(reply.body);
    if (!("rows" in read)) throw new Error(JSON.stringify(read));
    const [names, units, sources, ...starts] = read.rows.map((r) => r.cells);
    expect(starts).toHaveLength(2);
    const at = names?.indexOf("oilNormalS") ?? -1;
    const json = (await ask("/engines/E-2/history")).body.rows;
    expect([units?.[at], sources?.[at]]).toEqual(["s", expect.stringContaining("normal oil pressure")]);
    expect(starts.map((s) => Number(s[at]))).toEqual(
      json.map((r: { figures: { oilNormalS: { value: number } } }) => r.figures.oilNormalS.value),
    );
    expect(new Set(read.rows.map((r) => r.cells.length)).size).toBe(1);
  });

  it("[HIS-22] counts no return among the starts of the house", async () => {
    const ofHouse = async () => (await ask("/house/history?weeks=104")).body;
    const before = await ofHouse();
    const now = Date.UTC(2026, 1, 1, 9);
    const back = new Stage(TWIN, "groundPower", { id: "s-back", aircraft: "CH-TST", purpose: "return", now });
    back.everyoneClaims();
    const start = begun("s-held", "CH-TST", 40, ["E-1", null]);
    const rain = { type: "send", kind: "hold", channel: "panel", note: "Rain" } as const;
    for (const stage of [back, start]) stage.do(personAt("fireGuard"), rain);
    await keep(back, "CODE-B");
    expect(await ofHouse()).toMatchObject({ sessions: before.sessions, unstarted: 0, holds: before.holds });
    await keep(start, "CODE-H");
    const after = await ofHouse();
    expect([after.sessions, after.unstarted]).toEqual([before.sessions + 1, 1]);
    expect(after.holds).toContainEqual({ reason: "Rain", times: 1, heldMin: 0 });
  });

  it("[HIS-25] gives how the starts of the house went, of every aircraft, for the weeks asked for", async () => {
    const weeks = 104;
    const { body } = await ask(`/house/history?weeks=${weeks}`);
    const sessions = await store.sessions(100);
    expect(body).toMatchObject({
      // One of them is a return.
      sessions: sessions.length - 1,
      unstarted: 1,
      few: true,
      more: false,
      most: 1_000,
    });
    expect(body.weeks).toHaveLength(weeks);
    expect(new Date(body.from).getUTCDay()).toBe(1);
    const rows = [];
    for (const id of ["CH-TST", "CH-TWO"]) rows.push(...(await ask(`/aircraft/${id}/history`)).body.rows);
    expect(body.starts).toBe(rows.length);
    const sum = (list: { starts: number }[]) => list.reduce((all, { starts }) => all + starts, 0);
    expect([sum(body.weeks), sum(body.touches)]).toEqual([rows.length, rows.length]);
    // And that of the hold in the session that engaged no starter.
    expect(body.alerts.raised).toBe(rows.flatMap((r) => r.alerts).length + 1);
    const later = (await ask("/house/history?weeks=1")).body;
    expect([later.sessions, later.starts, later.weeks.length]).toEqual([0, 0, 1]);
    for (const wrong of [0, 105, "many"])
      expect((await ask(`/house/history?weeks=${wrong}`)).status).toBe(400);
  });

  it("[HIS-25] gives the same as CSV, each figure with its unit and its source", async () => {
    const url = "/api/house/history?weeks=104&as=csv";
    const reply = await server.app.inject({ url, headers: headers as Record<string, string> });
    expect(reply.headers["content-type"]).toContain("text/csv");
    const read = readCsv(reply.body);
    if (!("rows" in read)) throw new Error(JSON.stringify(read));
    const [head, ...lines] = read.rows.map((r) => r.cells);
    expect(head).toEqual(["table", "item", "measure", "value", "unit", "source"]);
    const { body } = await ask("/house/history?weeks=104");
    const of = (table: string, measure: string) =>
      lines.filter((l) => l[0] === table && l[2] === measure).map((l) => Number(l[3]));
    expect(of("house", "starts")).toEqual([body.starts]);
    expect(of("weeks", "starts")).toEqual(body.weeks.map((w: { starts: number }) => w.starts));
    expect(of("touches", "touches")).toEqual(body.touches.map((t: { touches: number }) => t.touches));
    expect(lines.every((l) => l.length === 6 && l[4] !== "" && l[5] !== "")).toBe(true);
    expect(lines.find((l) => l[2] === "nuisance per start")?.[3]).toBe("");
  });

  it("[HIS-36] tells how long equipment lasts and how defects come, as JSON and CSV", async () => {
    const lives = (await ask("/house/lives")).body;
    expect(lives.all.map((s: { of: string }) => s.of)).toEqual(["starter", "cart", "extinguisher"]);
    expect([lives.more, lives.all[1].weibull]).toEqual([false, null]);
    const trend = (await ask("/aircraft/CH-TST/defects/trend")).body;
    const { rows } = (await ask("/aircraft/CH-TST/history")).body;
    expect(trend).toMatchObject({ aircraft: "CH-TST", from: rows[0].at, trend: null });
    for (const url of ["/api/house/lives?as=csv", "/api/aircraft/CH-TST/defects/trend?as=csv"]) {
      const reply = await server.app.inject({ url, headers: headers as Record<string, string> });
      expect([reply.statusCode, reply.headers["content-type"]]).toEqual([
        200,
        expect.stringContaining("text/csv"),
      ]);
      expect(reply.body).toMatch(/^table,item,measure,value,unit,source\r\n/);
    }
    expect((await ask("/aircraft/NONE/defects/trend")).status).toBe(404);
  });

  it("[DUE-6] lets an inspection by starts count those of the record", async () => {
    const entry = {
      ...{ id: "plugs", aircraft: "CH-TST", engine: 2, name: "Plugs", source: "Manual 7", retired: false },
      every: { by: "starts", starts: 25, ahead: 5 },
      last: { day: "2025-12-31", hours: null },
    };
    const di = bearer(await signIn(server.app, "di"));
    const added = await server.app.inject({
      method: "POST",
      url: "/api/inspections",
      headers: di,
      payload: entry,
    });
    expect(added.statusCode).toBe(201);
    const { rows } = (await ask("/aircraft/CH-TST/history")).body;
    const made = rows.filter((r: { n: number }) => r.n === 2).length;
    expect(made).toBeGreaterThan(0);
    const due = (await ask("/dues")).body.find((d: { of: string }) => d.of === "inspection");
    expect(due).toMatchObject({ by: "starts", startsLeft: 25 - made, hoursLeft: null, is: "later" });
  });
});
