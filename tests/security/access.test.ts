import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { sha256 } from "../../server/sha256.ts";
import { ALL_BAR } from "../../shared/house/house.ts";
import { firstEntry } from "../../shared/house/register.ts";
import type { Scope, ScopeKind } from "../../shared/house/serviceAccount.ts";
import {
  APPROVED,
  bearer,
  PIN,
  planBody,
  planned,
  signIn,
  type TestServer,
  testServer,
} from "../http/test-server.ts";

import { CHOCKS, FIRE, keptAs, YEARLY } from "../spec/equipped.ts";

/** The people for whom a route is open; `system`: for a service account with the scope alone. */
type For = "anybody" | "signed in" | "qualified" | "cockpit or supervisor" | "supervisor" | "system";

interface Row {
  route: string;
  for: For;
  /** A valid body, so that only the person can be refused. */
  body?: () => object | string;
  /** Values for the parameters of the path. */
  at?: Record<string, string>;
  query?: string;
  headers?: Record<string, string>;
  /** Scopes that open the route to a service account; without any it is refused. */
  scopes?: readonly ScopeKind[];
}

/** A service account of each scope. */
const SCOPES: Readonly<Record<ScopeKind, Scope>> = {
  readRecords: { is: "readRecords" },
  readLive: { is: "readLive" },
  dueCalendar: { is: "dueCalendar" },
  pushReadings: { is: "pushReadings", aircraft: "CH-TST" },
  pushWeather: { is: "pushWeather", place: "North ramp" },
};
const tokens = new Map<ScopeKind, string>();
const LIVE = ["readRecords", "readLive"] as const;
const RECORDS = ["readRecords"] as const;

let server: TestServer;
let session: string;
let other = 0;
const SCRIPT = {
  ...{ id: "ours", title: { en: "Ours", es: "El nuestro" }, about: { en: "Ours", es: "El nuestro" } },
  ...{ airC: 15, faults: [] },
};
const typeAt = { id: APPROVED.id, version: "1" };
const draft = { caution: "c", type: { ...APPROVED, id: "other", name: "Other" } };
const bird = (id?: string) => ({
  ...(id === undefined ? {} : { id }),
  ...{ name: "Bird", typeId: APPROVED.id, typeVersion: 1, fitted: [], stand: null, notes: null },
});
const ifMatch = { "if-match": '"1"' };

const ROWS: readonly Row[] = [
  { route: "GET /health/live", for: "anybody" },
  { route: "GET /health/ready", for: "anybody" },
  { route: "GET /metrics", for: "anybody" },
  { route: "GET /api/nonce", for: "anybody" },
  { route: "GET /api/demo", for: "anybody" },
  { route: "GET /api/due-calendar/{token}", for: "anybody", at: { token: "none" } },
  { route: "POST /api/sign-in/passkey/options", for: "anybody" },
  { route: "POST /api/sign-out", for: "signed in" },
  {
    route: "POST /api/confirm",
    for: "signed in",
    body: () => ({ pin: PIN, session, command: "00000000-0000-4000-8000-000000000009" }),
  },
  { route: "GET /api/me", for: "signed in" },
  { route: "POST /api/me/pin", for: "signed in", body: () => ({ pin: PIN, next: "short" }) },
  { route: "GET /api/me/sign-ins", for: "signed in" },
  { route: "DELETE /api/me/sign-ins/{id}", for: "signed in", at: { id: "none" } },
  { route: "GET /api/me/passkeys", for: "signed in" },
  { route: "POST /api/me/passkeys", for: "signed in", body: () => ({}) },
  { route: "POST /api/me/passkeys/options", for: "signed in", body: () => ({ pin: PIN }) },
  { route: "DELETE /api/me/passkeys/{id}", for: "signed in", at: { id: "none" } },
  { route: "GET /api/people", for: "signed in" },
  { route: "GET /api/aircraft", for: "signed in" },
  { route: "GET /api/aircraft/{id}", for: "signed in", at: { id: "CH-TST" } },
  { route: "GET /api/aircraft/{id}/changes", for: "signed in", at: { id: "CH-TST" } },
  { route: "POST /api/aircraft", for: "supervisor", body: () => bird("CH-OTH") },
  {
    route: "PUT /api/aircraft/{id}",
    for: "supervisor",
    at: { id: "CH-TST" },
    headers: ifMatch,
    body: () => bird(),
  },
  {
    route: "PUT /api/aircraft/{id}/retired",
    for: "supervisor",
    at: { id: "CH-TST" },
    headers: ifMatch,
    body: () => ({ retired: false, reason: "Back" }),
  },
  {
    route: "POST /api/aircraft/{id}/hours",
    for: "cockpit or supervisor",
    at: { id: "CH-TST" },
    headers: ifMatch,
    body: () => ({ hours: [{ n: 1, engine: 1, propeller: null }] }),
  },
  { route: "GET /api/standing", for: "signed in" },
  { route: "GET /api/aircraft/{id}/defects", for: "signed in", at: { id: "none" }, scopes: RECORDS },
  { route: "GET /api/aircraft/{id}/pictures", for: "signed in", at: { id: "CH-TST" }, scopes: RECORDS },
  {
    route: "POST /api/aircraft/{id}/defects/{defect}/pictures",
    for: "signed in",
    at: { id: "CH-TST", defect: "none" },
    query: "?commandId=00000000-0000-4000-8000-000000000011",
    body: () => "no picture",
  },
  {
    route: "GET /api/aircraft/{id}/defects/{defect}/pictures/{sha256}",
    for: "signed in",
    at: { id: "CH-TST", defect: "none", sha256: sha256("") },
    scopes: RECORDS,
  },
  {
    route: "POST /api/aircraft/{id}/defects/{defect}/pictures/{sha256}/removal",
    for: "supervisor",
    at: { id: "CH-TST", defect: "none", sha256: sha256("") },
    body: () => ({ commandId: "00000000-0000-4000-8000-000000000012", reason: "A face" }),
  },
  { route: "GET /api/aircraft/{id}/standing", for: "signed in", at: { id: "none" } },
  { route: "GET /api/aircraft/{id}/history", for: "signed in", at: { id: "CH-TST" }, scopes: RECORDS },
  { route: "GET /api/aircraft/{id}/notes", for: "signed in", at: { id: "CH-TST" }, scopes: RECORDS },
  { route: "GET /api/engines/{serial}/history", for: "signed in", at: { serial: "none" }, scopes: RECORDS },
  { route: "GET /api/house/history", for: "signed in", scopes: RECORDS },
  { route: "GET /api/search", for: "signed in", scopes: RECORDS },
  { route: "GET /api/house/lives", for: "signed in", scopes: RECORDS },
  {
    route: "GET /api/aircraft/{id}/defects/trend",
    for: "signed in",
    at: { id: "CH-TST" },
    scopes: RECORDS,
  },
  {
    route: "POST /api/aircraft/{id}/reports",
    for: "signed in",
    at: { id: "none" },
    body: () => ({
      commandId: "00000000-0000-4000-8000-000000000010",
      action: { type: "stop", is: "hold" },
    }),
  },
  { route: "GET /api/begun-types", for: "signed in" },
  { route: "GET /api/begun-types/{id}", for: "signed in", at: { id: "none" } },
  {
    route: "POST /api/begun-types",
    for: "supervisor",
    body: () => ({ id: "blank", name: "Blank", engines: 2 }),
  },
  {
    route: "PUT /api/begun-types/{id}",
    for: "supervisor",
    at: { id: "none" },
    headers: ifMatch,
    body: () => ({}),
  },
  { route: "DELETE /api/begun-types/{id}", for: "supervisor", at: { id: "none" }, headers: ifMatch },
  { route: "POST /api/begun-types/{id}/draft", for: "supervisor", at: { id: "none" }, headers: ifMatch },
  { route: "GET /api/devices", for: "supervisor" },
  { route: "POST /api/devices/codes", for: "supervisor", body: () => ({ name: "T" }) },
  { route: "POST /api/devices/{id}/revocation", for: "supervisor", at: { id: "none" } },
  { route: "GET /api/house", for: "anybody" },
  { route: "GET /api/house/settings", for: "signed in" },
  {
    route: "PUT /api/house/settings",
    for: "supervisor",
    headers: { "if-match": '"0"' },
    body: () => ({ name: "House", overdue: ALL_BAR }),
  },
  { route: "GET /api/currencies", for: "signed in" },
  { route: "GET /api/me/lapses", for: "signed in" },
  { route: "GET /api/me/training", for: "signed in" },
  { route: "GET /api/people/{id}/training", for: "supervisor", at: { id: "nobody" } },
  { route: "GET /api/people/lapses", for: "cockpit or supervisor" },
  { route: "GET /api/people/dates", for: "supervisor" },
  { route: "PUT /api/people/{id}/dates", for: "supervisor", at: { id: "nobody" }, body: () => ({}) },
  {
    route: "PUT /api/people/{id}/pin",
    for: "supervisor",
    at: { id: "nobody" },
    body: () => ({ pin: PIN, next: "90210377" }),
  },
  {
    route: "POST /api/currencies",
    for: "supervisor",
    body: () => {
      other += 1;
      return { ...FIRE, id: `fire${other}` };
    },
  },
  {
    route: "PUT /api/currencies/{id}",
    for: "supervisor",
    at: { id: "none" },
    headers: ifMatch,
    body: () => {
      const { id: _id, ...entry } = FIRE;
      return entry;
    },
  },
  { route: "GET /api/dues", for: "cockpit or supervisor" },
  { route: "GET /api/dues.ics", for: "cockpit or supervisor" },
  { route: "GET /api/dues.pdf", for: "cockpit or supervisor" },
  { route: "GET /api/inspections", for: "signed in" },
  { route: "GET /api/inspections/{id}/changes", for: "signed in", at: { id: "none" } },
  {
    route: "POST /api/inspections",
    for: "supervisor",
    body: () => {
      other += 1;
      return { ...YEARLY, id: `yearly${other}`, aircraft: "CH-TST" };
    },
  },
  {
    route: "PUT /api/inspections/{id}",
    for: "supervisor",
    at: { id: "none" },
    headers: ifMatch,
    body: () => {
      const { id: _id, ...entry } = YEARLY;
      return entry;
    },
  },
  {
    route: "PUT /api/inspections/{id}/done",
    for: "supervisor",
    at: { id: "none" },
    headers: ifMatch,
    body: () => ({ last: { day: "2026-11-01", hours: null }, words: "Done" }),
  },
  { route: "GET /api/equipment", for: "signed in" },
  { route: "GET /api/equipment/{id}", for: "signed in", at: { id: "CHK-A" } },
  { route: "GET /api/equipment/{id}/changes", for: "signed in", at: { id: "CHK-A" } },
  {
    route: "POST /api/equipment",
    for: "supervisor",
    body: () => {
      other += 1;
      return keptAs({ ...CHOCKS, id: `CHK-${other}` });
    },
  },
  {
    route: "PUT /api/equipment/{id}",
    for: "supervisor",
    at: { id: "CHK-A" },
    headers: ifMatch,
    body: () => keptAs(CHOCKS),
  },
  {
    route: "PUT /api/equipment/{id}/out",
    for: "qualified",
    at: { id: "CHK-A" },
    headers: ifMatch,
    body: () => ({ out: "broken", reason: "Split" }),
  },
  { route: "GET /api/house/lists/{kind}", for: "supervisor", at: { kind: "people" } },
  {
    route: "POST /api/house/lists/{kind}/judgement",
    for: "supervisor",
    at: { kind: "equipment" },
    body: () => ({ csv: "label,kind,name\r\n" }),
  },
  {
    route: "POST /api/house/lists/{kind}",
    for: "supervisor",
    at: { kind: "equipment" },
    // The tag of a file that does nothing.
    body: () => ({ csv: "label,kind,name\r\n", tag: sha256("[]") }),
  },
  { route: "GET /api/house/steps", for: "signed in" },
  // A position of another stream is refused after the sign-in, so that no stream stays open.
  {
    route: "GET /api/live",
    for: "signed in",
    scopes: ["readLive"],
    headers: { "last-event-id": "none" },
  },
  { route: "GET /api/aircraft/{id}/channels", for: "signed in", at: { id: "CH-TST" } },
  {
    route: "PUT /api/aircraft/{id}/channels",
    for: "supervisor",
    at: { id: "CH-TST" },
    headers: ifMatch,
    body: () => ({ channels: [] }),
  },
  {
    route: "POST /api/feeds/{aircraft}",
    for: "system",
    scopes: ["pushReadings"],
    at: { aircraft: "CH-TST" },
    headers: { "content-type": "application/x-ndjson" },
    body: () => ({}),
  },
  {
    route: "POST /api/weather",
    for: "system",
    scopes: ["pushWeather"],
    body: () => ({ place: "North ramp", metar: "none" }),
  },
  { route: "GET /api/webhooks", for: "supervisor" },
  { route: "GET /api/webhooks/given-up", for: "supervisor" },
  {
    route: "POST /api/webhooks/again",
    for: "supervisor",
    body: () => ({ target: "hangar", id: "none.1" }),
  },
  { route: "GET /api/service-accounts", for: "supervisor" },
  {
    route: "POST /api/service-accounts",
    for: "supervisor",
    body: () => ({ name: "Display", until: "2030-01-31", scopes: [{ is: "readLive" }] }),
  },
  {
    route: "POST /api/service-accounts/{id}/revocation",
    for: "supervisor",
    at: { id: "0000000000000000" },
  },
  {
    route: "POST /api/people",
    for: "supervisor",
    body: () => {
      other += 1;
      return { handle: `new${other}`, name: `New ${other}`, mayHold: [], pin: "90210377" };
    },
  },
  {
    route: "PUT /api/people/{id}",
    for: "supervisor",
    at: { id: "nobody" },
    body: () => ({ name: "Nobody", mayHold: [] }),
  },
  { route: "GET /api/people/everybody", for: "supervisor" },
  {
    route: "PUT /api/people/{id}/active",
    for: "supervisor",
    at: { id: "nobody" },
    body: () => ({ active: true }),
  },
  { route: "GET /api/types", for: "signed in" },
  { route: "GET /api/types/schema", for: "signed in" },
  { route: "GET /api/types/{id}/{version}", for: "signed in", at: typeAt },
  { route: "GET /api/types/{id}/{version}/export", for: "signed in", at: typeAt },
  {
    route: "POST /api/types",
    for: "supervisor",
    body: () => {
      other += 1;
      return { id: `new${other}`, name: "New", from: { id: APPROVED.id, version: 1 } };
    },
  },
  { route: "POST /api/types/validate", for: "supervisor", body: () => APPROVED },
  { route: "POST /api/types/import", for: "supervisor", body: () => draft },
  {
    route: "POST /api/types/{id}/drafts",
    for: "supervisor",
    at: { id: APPROVED.id },
    body: () => ({ from: 1 }),
  },
  {
    route: "PUT /api/types/{id}/{version}",
    for: "supervisor",
    at: typeAt,
    headers: ifMatch,
    body: () => APPROVED,
  },
  { route: "DELETE /api/types/{id}/{version}", for: "supervisor", at: typeAt, headers: ifMatch },
  {
    route: "POST /api/types/{id}/{version}/approval",
    for: "supervisor",
    at: typeAt,
    headers: ifMatch,
    body: () => ({ pin: PIN }),
  },
  { route: "GET /api/sessions", for: "signed in", scopes: LIVE },
  { route: "POST /api/sessions", for: "cockpit or supervisor", body: () => planBody() },
  { route: "GET /api/rehearsals", for: "signed in" },
  {
    route: "POST /api/rehearsals",
    for: "signed in",
    body: () => ({ aircraft: "none", script: "firstDay", post: null }),
  },
  { route: "GET /api/rehearsals/scripts", for: "signed in" },
  { route: "GET /api/rehearsals/house-scripts", for: "signed in" },
  {
    route: "POST /api/rehearsals/house-scripts",
    for: "supervisor",
    body: () => {
      other += 1;
      return { ...SCRIPT, id: `ours-${other}` };
    },
  },
  {
    route: "PUT /api/rehearsals/house-scripts/{id}",
    for: "supervisor",
    at: { id: "ours" },
    headers: ifMatch,
    body: () => ({ script: SCRIPT, retired: false }),
  },
  { route: "GET /api/rehearsals/{id}/world", for: "signed in", at: { id: "none" } },
  {
    route: "PUT /api/rehearsals/{id}/hands",
    for: "signed in",
    at: { id: "none" },
    body: () => ({ controls: null }),
  },
  {
    route: "POST /api/rehearsals/{id}/back",
    for: "signed in",
    at: { id: "none" },
    body: () => ({ seq: 1 }),
  },
  { route: "GET /api/rehearsals/{id}/compared", for: "signed in", at: { id: "none" } },
  {
    route: "POST /api/rehearsals/{id}/desk",
    for: "signed in",
    at: { id: "none" },
    body: () => ({ do: "mark", words: "Here" }),
  },
  { route: "DELETE /api/rehearsals/{id}", for: "signed in", at: { id: "none" } },
  { route: "GET /api/sessions/{id}", for: "signed in", scopes: LIVE },
  { route: "GET /api/sessions/{id}/events", for: "signed in", scopes: LIVE },
  { route: "GET /api/join/{code}", for: "signed in", at: { code: "ACDEFG" } },
  { route: "GET /api/sessions/{id}/noise", for: "signed in" },
  { route: "GET /api/sessions/{id}/evidence", for: "signed in", scopes: RECORDS },
  { route: "GET /api/aircraft/{id}/evidence", for: "signed in", scopes: RECORDS, at: { id: "CH-TST" } },
  { route: "GET /api/evidence/key", for: "signed in", scopes: RECORDS },
  { route: "GET /api/sessions/{id}/checkpoint", for: "signed in", scopes: RECORDS },
  {
    route: "GET /api/sessions/{id}/proofs/inclusion",
    for: "signed in",
    query: "?event=1&size=1",
    scopes: RECORDS,
  },
  {
    route: "GET /api/sessions/{id}/proofs/consistency",
    for: "signed in",
    query: "?from=1&to=1",
    scopes: RECORDS,
  },
  { route: "GET /api/sessions/{id}/brief.pdf", for: "signed in" },
  { route: "GET /api/sessions/{id}/record.pdf", for: "signed in", scopes: RECORDS },
  { route: "GET /api/card.pdf", for: "signed in" },
];

/** Routes whose body is itself the sign-in. The body decides what is allowed, and is tested with it. */
const BY_BODY = [
  "POST /api/sign-in",
  "POST /api/sign-in/passkey",
  "POST /api/devices",
  "POST /api/first-run",
];

/** Returns the headers of a kind of person, with a new sign-in for each request. */
const KINDS: Readonly<
  Record<string, { may: readonly For[]; headers: () => Promise<Record<string, string>> }>
> = {
  nobody: { may: ["anybody"], headers: async () => ({}) },
  "a forger": { may: ["anybody"], headers: async () => bearer("F".repeat(43)) },
  "somebody signed out": {
    may: ["anybody"],
    headers: async () => {
      const headers = bearer(await signIn(server.app, "fay", "left"));
      await server.app.inject({ method: "POST", url: "/api/sign-out", headers });
      return headers;
    },
  },
  "somebody whose sign-in ran out": {
    may: ["anybody"],
    headers: async () => {
      const headers = bearer(await signIn(server.app, "fay", "idle"));
      const { directory } = server.services;
      const here = (await directory.personal.signIns("fay")).filter((s) => s.deviceId === "idle");
      await directory.usedSignIns(
        here.map((s) => s.id),
        0,
      );
      return headers;
    },
  },
  "somebody no longer active": {
    may: ["anybody"],
    headers: async () => {
      const headers = bearer(await signIn(server.app, "dot", "gone"));
      await server.services.directory.setActive("dot", false);
      await server.hand.pass(6_000);
      return headers;
    },
  },
  "somebody without a qualification": {
    may: ["anybody", "signed in"],
    headers: async () => bearer(await signIn(server.app, "ed")),
  },
  cockpit: {
    may: ["anybody", "signed in", "qualified", "cockpit or supervisor"],
    headers: async () => bearer(await signIn(server.app, "ada")),
  },
  "fire guard": {
    may: ["anybody", "signed in", "qualified"],
    headers: async () => bearer(await signIn(server.app, "bo")),
  },
  "ground power": {
    may: ["anybody", "signed in", "qualified"],
    headers: async () => bearer(await signIn(server.app, "cy")),
  },
  supervisor: {
    may: ["anybody", "signed in", "qualified", "cockpit or supervisor", "supervisor"],
    headers: async () => bearer(await signIn(server.app, "di")),
  },
};

beforeAll(async () => {
  server = await testServer({
    demo: true,
    // Each request of the table signs in anew.
    perMinute: { signIns: 1e9 },
    printer: { print: async () => Buffer.from("%PDF-1.7"), close() {} },
  });
  session = (await planned(server.app, await signIn(server.app, "fay"))).id;
  const { directory } = server.services;
  await directory.register.append([firstEntry("equipment", keptAs(CHOCKS), "di", 1)]);
  const script = { ...SCRIPT, slower: 1 };
  await directory.register.append([firstEntry("script", { id: "ours", script, retired: false }, "di", 1)]);
  const office = { id: "di", name: "Di", mayHold: ["supervisor" as const] };
  for (const [kind, scope] of Object.entries(SCOPES)) {
    const made = { name: kind, until: "2030-01-31", scopes: [scope] };
    tokens.set(scope.is, (await server.services.accounts.add(office, made)).token);
  }
});
afterAll(() => server.close());

it("[SEC-30] the table names every route exactly once", async () => {
  const { paths } = (await server.app.inject({ url: "/docs/json" })).json();
  const all = Object.entries<object>(paths).flatMap(([path, methods]) =>
    Object.keys(methods).map((method) => `${method.toUpperCase()} ${path}`),
  );
  expect([...ROWS.map((r) => r.route), ...BY_BODY].sort()).toEqual(all.sort());
});

describe.each(Object.keys(KINDS))("%s", (kind) => {
  const { may, headers } = KINDS[kind] as (typeof KINDS)[string];

  it.each(ROWS)("[SEC-30] at $route (for $for)", async (row) => {
    if (kind === "somebody no longer active") await server.services.directory.setActive("dot", true);
    const { reply, refused } = await ask(row, await headers());
    const { route } = row;
    const expected = may.includes(row.for)
      ? null
      : !may.includes("signed in")
        ? "signInNeeded"
        : row.for === "system"
          ? "outOfScope"
          : "notQualified";
    const broke = reply.statusCode >= 500 && route !== "GET /health/ready";
    expect([refused, broke]).toEqual([expected, false]);
    if (expected !== null) expect(reply.statusCode).toBe(expected === "signInNeeded" ? 401 : 403);
  });
});

describe.each(Object.keys(SCOPES) as ScopeKind[])("a service account with %s", (kind) => {
  it.each(ROWS)("[INT-5] at $route", async (row) => {
    const { reply, refused } = await ask(row, bearer(tokens.get(kind) ?? ""));
    const open = row.for === "anybody" || row.scopes?.includes(kind) === true;
    const broke = reply.statusCode >= 500 && row.route !== "GET /health/ready";
    expect([refused, broke]).toEqual([open ? null : "outOfScope", false]);
    if (!open) expect(reply.statusCode).toBe(403);
  });
});

/** Sends a request of the table. Returns its reply, and the name of the problem if it was refused for who asked. */
async function ask(row: Row, who: Record<string, string>) {
  const [method, path = ""] = row.route.split(" ");
  const url =
    path.replace(/\{(\w+)\}/g, (_all, name: string) => row.at?.[name] ?? session) + (row.query ?? "");
  const reply = await server.app.inject({
    method: method as "GET",
    url,
    headers: { ...who, ...row.headers },
    ...(row.body ? { payload: row.body() } : {}),
  });
  const type = reply.headers["content-type"]?.toString().startsWith("application/problem")
    ? reply.json().type
    : null;
  return { reply, refused: /:(signInNeeded|notQualified|outOfScope)$/.exec(type ?? "")?.[1] ?? null };
}
