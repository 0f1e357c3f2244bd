import { afterEach, beforeEach, expect, it } from "vitest";
import { FIFTY, FIRE, YEARLY } from "../spec/equipped.ts";
import { bearer, signIn, type TestServer, testServer } from "./test-server.ts";

let test: TestServer;
const tokens: Record<string, string> = {};
beforeEach(async () => {
  test = await testServer();
  for (const who of ["di", "ada", "bo"]) tokens[who] = await signIn(test.app, who);
});
afterEach(() => test.close());

const ask = (who: string, method: "GET" | "POST" | "PUT", url: string, payload?: object, revision?: number) =>
  test.app.inject({
    ...{ method, url: `/api${url}` },
    headers: { ...bearer(tokens[who] ?? ""), ...(revision && { "if-match": `"${revision}"` }) },
    ...(payload && { payload }),
  });
const kind = (reply: { json(): { type?: string } }) => reply.json().type?.split(":").at(-1);
const day = (ms: number) => new Date(ms).toISOString().slice(0, 10);

it("[DUE-1] an inspection is added, changed at the revision read, and entered as done, and every state is kept", async () => {
  expect(kind(await ask("ada", "POST", "/inspections", YEARLY))).toBe("notQualified");
  expect((await ask("di", "POST", "/inspections", { ...YEARLY, aircraft: "NONE" })).json().errors).toEqual([
    { path: "aircraft", message: "the house has no aircraft NONE" },
  ]);
  expect((await ask("di", "POST", "/inspections", YEARLY)).statusCode).toBe(201);
  expect(kind(await ask("di", "POST", "/inspections", YEARLY))).toBe("taken");
  const { id: _id, ...entry } = { ...YEARLY, name: "Annual inspection" };
  expect((await ask("di", "PUT", "/inspections/yearly", entry, 1)).statusCode).toBe(200);
  expect(kind(await ask("di", "PUT", "/inspections/yearly", entry, 1))).toBe("stale");
  const done = { last: { day: "2026-11-20", hours: null }, words: "Signed by the inspector, sheet 14" };
  expect((await ask("di", "PUT", "/inspections/yearly/done", done, 2)).statusCode).toBe(200);
  const wrong = { ...done, last: { day: "2026-11-20", hours: 12 } };
  expect(kind(await ask("di", "PUT", "/inspections/yearly/done", wrong, 3))).toBe("faultyEntry");
  const changes = (await ask("bo", "GET", "/inspections/yearly/changes")).json();
  expect(
    changes.map((c: { by: string; reason: string | null; body: { last: object } }) => [
      c.by,
      c.reason,
      c.body.last,
    ]),
  ).toEqual([
    ["Di", done.words, done.last],
    ["Di", null, YEARLY.last],
    ["Di", null, YEARLY.last],
  ]);
  expect(kind(await ask("bo", "GET", "/inspections/none/changes"))).toBe("notFound");
});

it("[DUE-2] hours entered after a start bring an inspection nearer", async () => {
  await ask("di", "POST", "/inspections", FIFTY);
  const left = async () =>
    (await ask("ada", "GET", "/dues")).json().find((d: { of: string }) => d.of === "inspection");
  expect(await left()).toMatchObject({ is: "over", hoursLeft: null });
  const aircraft = await ask("ada", "GET", "/aircraft/CH-TST");
  const hours = { hours: [{ n: 2, engine: 446, propeller: null }] };
  await ask("ada", "POST", "/aircraft/CH-TST/hours", hours, aircraft.json().revision);
  expect(await left()).toMatchObject({ is: "soon", hoursLeft: 4 });
});

it("[DUE-3] [DUE-5] those who plan read the dues as a list, on paper and as a calendar, in their language", async () => {
  const now = test.services.clock.now();
  await ask("di", "POST", "/currencies", FIRE);
  await ask("di", "PUT", "/people/bo/dates", { fire: day(now + 5 * 24 * 3_600_000) });
  await ask("di", "POST", "/inspections", { ...YEARLY, last: null });
  for (const url of ["/dues", "/dues.ics", "/dues.pdf"])
    expect(kind(await ask("bo", "GET", url))).toBe("notQualified");
  const list = (await ask("ada", "GET", "/dues")).json();
  expect(list.map((d: { of: string; is: string }) => [d.of, d.is])).toEqual(
    expect.arrayContaining([
      ["inspection", "over"],
      ["person", "soon"],
      ["blades", "soon"],
    ]),
  );
  const calendar = await test.app.inject({
    url: "/api/dues.ics",
    headers: { ...bearer(tokens.ada ?? ""), "accept-language": "es" },
  });
  expect(calendar.headers["content-type"]).toBe("text/calendar; charset=utf-8");
  expect(calendar.body).toContain("Bo: Fire training\\, guardia de fuego");
  const paper = await ask("ada", "GET", "/dues.pdf");
  expect([paper.statusCode, paper.headers["content-type"]]).toEqual([200, "application/pdf"]);
  expect(paper.rawPayload.subarray(0, 5).toString()).toBe("%PDF-");
});
