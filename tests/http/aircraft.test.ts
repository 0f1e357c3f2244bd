import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { APPROVED, bearer, planBody, signIn, type TestServer, testServer } from "./test-server.ts";

let test: TestServer;
const tokens: Record<string, string> = {};
beforeEach(async () => {
  test = await testServer();
  for (const who of ["di", "ada", "bo", "fay"]) tokens[who] = await signIn(test.app, who);
});
afterEach(() => test.close());

async function ask(
  who: string,
  method: "GET" | "POST" | "PUT",
  url: string,
  payload?: object,
  revision?: number,
) {
  const tag = revision === undefined ? {} : { "if-match": `"${revision}"` };
  const reply = await test.app.inject({
    ...{ method, url: `/api${url}`, headers: { ...bearer(tokens[who] ?? ""), ...tag } },
    ...(payload === undefined ? {} : { payload }),
  });
  const body = reply.json();
  return { status: reply.statusCode, body, etag: reply.headers.etag, kind: body.type?.split(":").at(-1) };
}

const entry = { name: "Bird", typeId: APPROVED.id, typeVersion: 1, fitted: [], stand: null, notes: null };
const place = (n: number, serial: string, hours: number) => ({
  ...{ n, engine: { serial, hours }, propeller: { serial: null, hours: null }, starter: "Hand crank" },
});

describe("adding", () => {
  it("[HSE-3] [HSE-4] by a supervisor makes an aircraft that can be planned at once", async () => {
    const added = await ask("di", "POST", "/aircraft", { id: "CH-NEW", ...entry, stand: "Stand 4" });
    expect([added.status, added.body, added.etag]).toEqual([201, { id: "CH-NEW", revision: 1 }, '"1"']);
    const { body } = await ask("ada", "GET", "/aircraft/CH-NEW");
    expect(body).toMatchObject({
      stand: "Stand 4",
      typeName: APPROVED.name,
      newest: 1,
      bar: null,
      revision: 1,
    });
    expect((await ask("ada", "POST", "/sessions", planBody({ aircraft: "CH-NEW" }))).status).toBe(201);
    expect((await ask("ada", "POST", "/aircraft", { id: "CH-TWO", ...entry })).kind).toBe("notQualified");
  });

  it("[HSE-2] [HSE-4] [HSE-5] is refused for a registration that is taken, another version or a wrong engine", async () => {
    const add = (over: object) => ask("di", "POST", "/aircraft", { id: "CH-NEW", ...entry, ...over });
    expect((await add({ id: "ch-tst" })).kind).toBe("taken");
    expect((await add({ typeVersion: 2 })).body.errors).toEqual([
      { path: "typeVersion", message: "version 1 of four is the approved one" },
    ]);
    expect((await add({ typeId: "none" })).body.errors).toEqual([
      { path: "typeId", message: "no version of a type none is approved" },
    ]);
    const wrong = await add({ fitted: [place(5, "A", 1)] });
    expect([wrong.status, wrong.kind, wrong.body.errors[0].path]).toEqual([422, "faultyEntry", "fitted.0.n"]);
    expect((await add({ id: "no registration" })).status).toBe(400);
    expect((await ask("di", "GET", "/aircraft")).body).toHaveLength(1);
  });
});

describe("changing", () => {
  it("[HSE-1] [HSE-2] keeps every state with its author, and takes only one change of a revision", async () => {
    const first = await ask("di", "PUT", "/aircraft/CH-TST", { ...entry, name: "Gull" }, 1);
    expect([first.status, first.etag]).toEqual([200, '"2"']);
    expect((await ask("di", "PUT", "/aircraft/CH-TST", { ...entry, name: "Late" }, 1)).kind).toBe("stale");
    expect((await ask("di", "PUT", "/aircraft/CH-TST", entry)).kind).toBe("revisionNeeded");
    expect((await ask("bo", "GET", "/aircraft/CH-TST/changes")).body).toMatchObject([
      { revision: 2, by: "Di", reason: null, body: { name: "Gull" } },
      { revision: 1, by: "program", body: { name: "Test bird" } },
    ]);
    expect((await ask("di", "PUT", "/aircraft/NONE", entry, 1)).kind).toBe("notFound");
    expect((await ask("di", "GET", "/aircraft/NONE/changes")).kind).toBe("notFound");
  });

  it("[HSE-5] takes fewer hours with a reason alone, which stays with the change", async () => {
    const url = "/aircraft/CH-TST";
    await ask("di", "PUT", url, { ...entry, fitted: [place(2, "A-1", 900)] }, 1);
    const fewer = { ...entry, fitted: [place(2, "A-1", 90)] };
    const refused = await ask("di", "PUT", url, fewer, 2);
    expect([refused.status, refused.body.errors[0].path]).toEqual([422, "fitted.0.engine.hours"]);
    expect((await ask("di", "PUT", url, { ...fewer, reason: "Slip of the pen" }, 2)).status).toBe(200);
    expect((await ask("di", "GET", `${url}/changes`)).body[0].reason).toBe("Slip of the pen");
  });

  it("[HSE-3] [HSE-5] hours are entered after a start by the cockpit, and do not fall", async () => {
    const url = "/aircraft/CH-TST";
    await ask("di", "PUT", url, { ...entry, fitted: [place(2, "A-1", 900)] }, 1);
    const hours = (engine: number) => ({ hours: [{ n: 2, engine, propeller: 12.5 }] });
    expect((await ask("bo", "POST", `${url}/hours`, hours(901), 2)).kind).toBe("notQualified");
    expect((await ask("ada", "POST", `${url}/hours`, hours(899), 2)).kind).toBe("faultyEntry");
    expect((await ask("ada", "POST", `${url}/hours`, hours(901.4), 2)).status).toBe(200);
    const third = { hours: [{ n: 1, engine: null, propeller: 3 }] };
    expect((await ask("ada", "POST", `${url}/hours`, third, 3)).status).toBe(200);
    expect((await ask("ada", "GET", url)).body.fitted).toEqual([
      { n: 1, engine: { serial: null, hours: null }, propeller: { serial: null, hours: 3 }, starter: null },
      { ...place(2, "A-1", 901.4), propeller: { serial: null, hours: 12.5 } },
    ]);
  });
});

it("[HSE-6] a retired aircraft cannot be planned until it is taken back, and what stands at it stays in sight", async () => {
  const retired = (to: boolean, revision: number) =>
    ask("di", "PUT", "/aircraft/CH-TST/retired", { retired: to, reason: "Sold, then not" }, revision);
  const standing = async () =>
    (await ask("ada", "GET", "/standing")).body.map((s: { aircraft: string }) => s.aircraft);
  expect((await retired(true, 1)).status).toBe(200);
  expect(await standing()).toEqual([]);
  const plan = await ask("ada", "POST", "/sessions", planBody());
  expect(plan.body.errors).toEqual([
    { path: "aircraft", message: "is retired: a supervisor takes it back into service first" },
  ]);
  const commandId = "00000000-0000-4000-8000-00000000aaaa";
  const hold = { commandId, action: { type: "stop", is: "hold" } };
  expect((await ask("bo", "POST", "/aircraft/CH-TST/reports", hold)).body.status).toBe("accepted");
  expect(await standing()).toEqual(["CH-TST"]);
  expect((await retired(false, 2)).status).toBe(200);
  expect((await ask("ada", "POST", "/sessions", planBody())).status).toBe(201);
});

it("[HSE-7] a plan records what was fitted then", async () => {
  await ask("di", "PUT", "/aircraft/CH-TST", { ...entry, fitted: [place(2, "A-1", 900)] }, 1);
  const { body } = await ask("ada", "POST", "/sessions", planBody());
  await ask("di", "PUT", "/aircraft/CH-TST", { ...entry, fitted: [place(2, "B-2", 3)] }, 2);
  const { events } = (await ask("ada", "GET", `/sessions/${body.id}/events`)).body;
  expect(events[0].fact.fitted).toEqual([place(2, "A-1", 900)]);
});

it("[DEF-3] [DEF-4] a defect is written by anybody, deferred and closed by a supervisor, and its life is read by everybody", async () => {
  let n = 0;
  const report = async (who: string, action: object) => {
    n += 1;
    const commandId = `00000000-0000-4000-8000-0000000d${String(n).padStart(4, "0")}`;
    return (await ask(who, "POST", "/aircraft/CH-TST/reports", { commandId, action })).body;
  };
  const leak = { type: "writeDefect", words: "Oil leak", engine: 2, barsStart: true };
  expect((await report("bo", leak)).status).toBe("accepted");
  const [written] = (await ask("ada", "GET", "/aircraft/CH-TST/defects")).body;
  const defer = { type: "deferDefect", no: written.no, until: "2031-03-04", reason: "Within the list" };
  expect((await report("bo", defer)).refusal.reason).toBe("notQualified");
  expect((await report("di", defer)).status).toBe("accepted");
  await report("di", { type: "end", no: written.no, reason: "Seal replaced" });
  await report("bo", leak);
  expect((await ask("bo", "GET", "/aircraft/CH-TST/defects")).body).toMatchObject([
    { words: "Oil leak", before: 1, closed: null },
    {
      before: 0,
      written: { name: "Bo", session: null },
      deferrals: [{ name: "Di", until: "2031-03-04", reason: "Within the list" }],
      closed: { name: "Di", reason: "Seal replaced", session: null },
    },
  ]);
  expect((await ask("bo", "GET", "/aircraft/CH-NONE/defects")).kind).toBe("notFound");
});

it("[DEF-5] [DEF-6] [DEF-7] by the house's rule a mended defect waits for another supervisor; a plan takes the rule along", async () => {
  let n = 0;
  const report = async (who: string, action: object) => {
    n += 1;
    const commandId = `00000000-0000-4000-8000-0000000e${String(n).padStart(4, "0")}`;
    return (await ask(who, "POST", "/aircraft/CH-TST/reports", { commandId, action })).body;
  };
  const { name, overdue } = (await ask("di", "GET", "/house/settings")).body;
  const rule = { name, overdue, inspectsDefects: true };
  expect((await ask("di", "PUT", "/house/settings", rule, 0)).status).toBe(200);
  // A client that does not know the rule leaves it as it is.
  expect((await ask("di", "PUT", "/house/settings", { name, overdue }, 1)).status).toBe(200);
  await report("bo", { type: "writeDefect", words: "Oil leak", engine: 2, barsStart: true });
  const [{ no }] = (await ask("ada", "GET", "/aircraft/CH-TST/defects")).body;
  const starts = { type: "deferDefect", no, starts: 3, reason: "Within the list" };
  expect((await report("di", starts)).status).toBe("accepted");
  expect((await report("di", { type: "end", no, reason: "Seal replaced" })).status).toBe("accepted");
  const inspect = { type: "inspectDefect", no, reason: "Dry after a run" };
  expect((await report("di", inspect)).refusal.reason).toBe("secondPersonNeeded");
  const [waits] = (await ask("bo", "GET", "/aircraft/CH-TST/defects")).body;
  expect(waits).toMatchObject({
    deferrals: [{ until: null, starts: 3 }],
    mendings: [{ name: "Di", reason: "Seal replaced", session: null }],
    closed: null,
  });
  const { body } = await ask("ada", "POST", "/sessions", planBody());
  const { events } = (await ask("ada", "GET", `/sessions/${body.id}/events`)).body;
  expect(events[0].fact.inspectsDefects).toBe(true);
  expect((await report("fay", inspect)).status).toBe("accepted");
  expect((await ask("bo", "GET", "/aircraft/CH-TST/defects")).body).toMatchObject([
    { closed: { name: "Fay", reason: "Dry after a run", inspected: true } },
  ]);
});
