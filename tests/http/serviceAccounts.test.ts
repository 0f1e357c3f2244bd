import { Writable } from "node:stream";
import { pino } from "pino";
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { addAccount, listAccounts, revokeAccount } from "../../server/house/account-commands.ts";
import { LOG_OPTIONS } from "../../server/log.ts";
import { firstEntry } from "../../shared/house/register.ts";
import { bearer, planned, signIn, type TestServer, testServer } from "./test-server.ts";

let test: TestServer;
let office: string;
const lines: Record<string, unknown>[] = [];

beforeEach(async () => {
  lines.length = 0;
  const sink = new Writable({
    write(chunk, _encoding, done) {
      lines.push(JSON.parse(String(chunk)));
      done();
    },
  });
  test = await testServer({ logger: pino(LOG_OPTIONS, sink) });
  office = await signIn(test.app, "di");
});
afterEach(() => test.close());

const READER = { name: "Hangar display", until: "2026-06-03", scopes: [{ is: "readRecords" }] };

async function made(payload: object = READER, who = office) {
  const url = "/api/service-accounts";
  const reply = await test.app.inject({ method: "POST", url, headers: bearer(who), payload });
  return { status: reply.statusCode, body: reply.json() };
}
const get = async (url: string, token: string) => {
  const reply = await test.app.inject({ url, headers: bearer(token) });
  return { status: reply.statusCode, kind: reply.json().type?.split(":").at(-1), body: reply.json() };
};

it("[INT-1] the office alone makes a service account, and its secret is shown once and kept as argon2id", async () => {
  const { status, body } = await made();
  expect(status).toBe(201);
  expect(body.token).toMatch(/^chockside_[0-9a-f]{16}_[A-Za-z0-9_-]{43}$/);
  expect((await made(READER, await signIn(test.app, "ada"))).status).toBe(403);
  const [entry] = await test.services.directory.register.all("serviceAccount");
  expect(entry?.body.secretHash).toMatch(/^\$argon2id\$v=19\$/);
  const listed = await get("/api/service-accounts", office);
  expect(listed.body).toEqual([{ ...READER, id: body.id, revoked: false }]);
  expect(JSON.stringify(lines)).not.toContain(body.token.slice(-43));
  expect((await made({ ...READER, scopes: [] })).status).toBe(400);
  expect((await made({ ...READER, scopes: [{ is: "everything" }] })).status).toBe(400);
});

it("[INT-2] it reads what its scope opens until its last day or until it is revoked, on this server at once", async () => {
  const { id } = await planned(test.app, await signIn(test.app, "fay"));
  const { body } = await made();
  expect((await get("/api/sessions", body.token)).body[0].id).toBe(id);
  expect((await get("/api/aircraft", body.token)).kind).toBe("outOfScope");
  expect((await get("/api/sessions", `${body.token.slice(0, -1)}-`)).kind).toBe("signInNeeded");
  const url = `/api/service-accounts/${body.id}/revocation`;
  const revoked = await test.app.inject({ method: "POST", url, headers: bearer(office) });
  expect(revoked.statusCode).toBe(204);
  expect((await get("/api/sessions", body.token)).kind).toBe("signInNeeded");

  const other = (await made()).body;
  expect((await get("/api/sessions", other.token)).status).toBe(200);
  // The last day is 3 June; the tests begin on 1 June at 09:00.
  await test.hand.leap(2 * 86_400_000 + 15 * 3_600_000 - 1_000);
  expect((await get("/api/sessions", other.token)).status).toBe(200);
  await test.hand.leap(6_000);
  expect((await get("/api/sessions", other.token)).kind).toBe("signInNeeded");
});

it("[INT-2] another server's revocation counts within five seconds, although the secret is not checked again", async () => {
  const { body } = await made();
  expect((await get("/api/sessions", body.token)).status).toBe(200);
  const { register } = test.services.directory;
  const entry = await register.one("serviceAccount", body.id);
  if (!entry) throw new Error("it is there");
  await register.append([{ ...entry, revision: 2, body: { ...entry.body, revoked: true } }]);
  await test.hand.leap(5_000);
  expect((await get("/api/sessions", body.token)).kind).toBe("signInNeeded");
});

it("[INT-3] wrong secrets are tried seldom from one network, and a known token goes on", async () => {
  const { body } = await made();
  expect((await get("/api/sessions", body.token)).status).toBe(200);
  const wrong = `${body.token.slice(0, -4)}AAAA`;
  const kinds = [];
  for (let n = 0; n < 25; n += 1) kinds.push((await get("/api/sessions", wrong)).kind);
  expect(kinds.filter((k) => k === "tooMany").length).toBeGreaterThanOrEqual(5);
  expect((await get("/api/sessions", body.token)).status).toBe(200);
});

it("[INT-4] every use is on the audit log: the first a minute at each place, with the number of the others", async () => {
  const { body } = await made();
  const uses = () => lines.filter((l) => l.audit === "accountUsed");
  for (let n = 0; n < 5; n += 1) await get("/api/sessions", body.token);
  await get("/api/aircraft", body.token);
  await test.hand.leap(60_000);
  await get("/api/sessions", body.token);
  expect(uses()).toMatchObject([
    { account: body.id, path: "/api/sessions", more: 0 },
    { account: body.id, path: "/api/aircraft", more: 0 },
    { account: body.id, path: "/api/sessions", more: 4 },
  ]);
  const refused = lines.find((l) => l.audit === "outOfScope");
  expect(refused).toMatchObject({ account: body.id, path: "/api/aircraft" });
});

it("[INT-1] the console makes, lists and ends them in the same register", async () => {
  const said: string[] = [];
  const spy = vi.spyOn(console, "log").mockImplementation((text: string) => void said.push(text));
  const { accounts, clock } = test.services;
  const by = { id: "console", name: "console", mayHold: ["supervisor" as const] };
  const listed = async () => {
    said.length = 0;
    await listAccounts(accounts, by, clock.now());
    return said.join("\n");
  };
  await addAccount(accounts, by, ["Logger", "2030-01-31", "pushReadings=CH-TST"]);
  const id = /chockside_([0-9a-f]{16})_[\w-]{43}/.exec(said.join("\n"))?.[1] ?? "";
  expect(await listed()).toBe(`${id}  Logger: pushReadings=CH-TST; until 2030-01-31`);
  await revokeAccount(accounts, by, [id]);
  expect(await listed()).toBe(`${id}  Logger: pushReadings=CH-TST; revoked`);
  await expect(addAccount(accounts, by, ["X", "2030-01-31", "everything"])).rejects.toThrow("scope");
  spy.mockRestore();
});

it("[DUE-7] its secret address gives the dues as a calendar, nothing else, until it is revoked or its last day", async () => {
  const CALENDAR = { ...READER, name: "Office calendar", scopes: [{ is: "dueCalendar" }] };
  const { body } = await made(CALENDAR);
  const { directory } = test.services;
  const yearly = {
    ...{ id: "yearly", aircraft: "CH-TST", engine: null, name: "Yearly", source: "Manual 7", retired: false },
    ...{ every: { by: "days" as const, days: 365, ahead: 30 }, last: { day: "2026-01-01", hours: null } },
  };
  await directory.register.append([firstEntry("inspection", yearly, "di", 1)]);
  const at = (token: string, query = "") =>
    test.app.inject({ url: `/api/due-calendar/${token}${query}`, remoteAddress: "192.0.2.7" });
  const calendar = await at(body.token);
  expect([calendar.statusCode, calendar.headers["content-type"]]).toEqual([
    200,
    "text/calendar; charset=utf-8",
  ]);
  expect(calendar.headers["cache-control"]).toContain("no-store");
  expect(calendar.body).toContain("SUMMARY:CH-TST: Yearly");
  expect((await at(body.token, "?language=es")).body).toContain("Vencimientos de Chockside");
  expect((await at(body.token, "?language=xx")).statusCode).toBe(400);
  // The token is for this address alone, and this address for such a token alone.
  expect((await get("/api/sessions", body.token)).kind).toBe("outOfScope");
  expect((await get("/api/dues", body.token)).kind).toBe("outOfScope");
  const reader = (await made()).body;
  const [wrong] = [`${body.token.slice(0, -1)}${body.token.endsWith("A") ? "B" : "A"}`];
  for (const token of [reader.token, wrong, "none", office])
    expect((await at(token)).statusCode, token).toBe(404);
  expect(JSON.stringify(lines)).not.toContain(body.token.slice(-43));
  expect(lines.filter((l) => l.audit === "accountUsed").map((l) => [l.account, l.path])).toEqual([
    [body.id, "/api/due-calendar/:token"],
    [body.id, "/api/sessions"],
    [body.id, "/api/dues"],
  ]);
  const url = `/api/service-accounts/${body.id}/revocation`;
  expect((await test.app.inject({ method: "POST", url, headers: bearer(office) })).statusCode).toBe(204);
  expect((await at(body.token)).statusCode).toBe(404);
  const second = (await made(CALENDAR)).body;
  expect((await at(second.token)).statusCode).toBe(200);
  await test.hand.leap(3 * 86_400_000);
  expect((await at(second.token)).statusCode).toBe(404);
});
