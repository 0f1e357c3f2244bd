import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { canonical } from "../../shared/evidence/canonical.ts";
import { enteredBy } from "../../shared/types/enteredBy.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import {
  APPROVED,
  addAircraft,
  bearer,
  moveTo,
  PIN,
  planBody,
  signIn,
  type TestServer,
  testServer,
} from "./test-server.ts";

let test: TestServer;
/** di and fay may hold the supervisor's post; ada may not. */
const tokens: Record<string, string> = {};
beforeEach(async () => {
  test = await testServer();
  for (const who of ["di", "fay", "ada"]) tokens[who] = await signIn(test.app, who);
});
afterEach(() => test.close());

type Method = "DELETE" | "GET" | "POST" | "PUT";
async function ask(who: string, method: Method, url: string, payload?: unknown, tag?: string) {
  const headers = { ...bearer(tokens[who] ?? ""), ...(tag === undefined ? {} : { "if-match": tag }) };
  const reply = await test.app.inject({
    ...{ method, url: `/api/types${url}`, headers },
    ...(payload === undefined ? {} : { payload: payload as object }),
  });
  return {
    status: reply.statusCode,
    body: reply.body ? reply.json() : null,
    headers: reply.headers,
    text: reply.body,
  };
}
const problem = (reply: { status: number; body: { type: string } }) =>
  [reply.status, reply.body.type.split(":").at(-1)] as const;
const read = async (version: number) => (await ask("ada", "GET", `/four/${version}`)).body as AircraftType;
const draft = (who = "di") => ask(who, "POST", "/four/drafts", { from: 1 });
const within = (type: AircraftType, value: number): AircraftType => ({
  ...type,
  oil: { ...type.oil, normal: { ...type.oil.normal, within: { ...type.oil.normal.within, value } } },
});
/** The approved type with every figure entered by Di, as after a copy or an import. */
const byDi = () => enteredBy(null, APPROVED, "Di") as AircraftType;
const change = async (value: number, tag: string, who = "di") =>
  ask(who, "PUT", "/four/2", within(await read(2), value), tag);

describe("the shape of a type", () => {
  it("[TYP-1] is published as JSON Schema, draft 2020-12", async () => {
    const { status, body, headers } = await ask("ada", "GET", "/schema");
    expect(status).toBe(200);
    expect(headers["content-type"]).toMatch(/^application\/schema\+json/);
    expect(body.$schema).toBe("https://json-schema.org/draft/2020-12/schema");
    expect(body).toMatchObject({ type: "object", additionalProperties: false });
    expect(Object.keys(body.properties).sort()).toEqual(expect.arrayContaining(Object.keys(APPROVED).sort()));
  });

  it("[TYP-3] finds no fault in a good type, and names each in a bad one with its path and in words", async () => {
    expect((await ask("di", "POST", "/validate", APPROVED)).body).toEqual({ faults: [], warnings: [] });
    const { oil, ...rest } = APPROVED;
    const bad = { ...rest, name: "", engines: "four", wind: { ...APPROVED.wind, max: 30 }, colour: "red" };
    const { status, body } = await ask("di", "POST", "/validate", bad);
    expect(status).toBe(200);
    expect(body.faults).toEqual([
      { path: "name", message: "must not be empty" },
      { path: "engines", message: "a list is needed" },
      { path: "oil", message: "is missing" },
      { path: "wind.max", message: "is missing" },
      { path: "", message: "not known here: colour" },
    ]);
    const shaped = { ...APPROVED, oil, defaultOrder: [9, 9] };
    expect((await ask("di", "POST", "/validate", shaped)).body.faults).not.toEqual([]);
    expect(problem(await ask("di", "POST", "/validate", "}{"))).toEqual([415, "wrongMediaType"]);
  });
});

describe("versions", () => {
  it("[SRV-16] [TYP-6] are listed with status, author and approver, and each is given whole", async () => {
    await draft();
    const { body } = await ask("ada", "GET", "");
    expect(body).toMatchObject([
      { id: "four", version: 1, name: APPROVED.name, status: "approved", approvedBy: "Chief engineer" },
      { id: "four", version: 2, name: APPROVED.name, status: "draft", author: "Di", approvedBy: null },
    ]);
    expect(await read(1)).toEqual(APPROVED);
    expect(problem(await ask("ada", "GET", "/four/3"))).toEqual([404, "notFound"]);
    expect((await ask("ada", "GET", "/four/one")).status).toBe(400);
  });
});

describe("a draft", () => {
  it("[TYP-2] is the next version with the same figures, by its author, approved by nobody", async () => {
    const { status, body, headers } = await draft();
    expect([status, body, headers.etag]).toEqual([201, { id: "four", version: 2 }, '"1"']);
    expect(await read(2)).toEqual({ ...APPROVED, version: 2, author: "Di", approvedBy: null });
    expect((await draft("fay")).body).toEqual({ id: "four", version: 3 });
  });

  it("[TYP-2] is refused to those not qualified, of what is not there, and without a version", async () => {
    expect(problem(await draft("ada"))).toEqual([403, "notQualified"]);
    expect(problem(await ask("di", "POST", "/four/drafts", { from: 7 }))).toEqual([404, "notFound"]);
    expect(problem(await ask("di", "POST", "/five/drafts", { from: 1 }))).toEqual([404, "notFound"]);
    expect(problem(await ask("di", "POST", "/four/drafts", {}))).toEqual([400, "malformed"]);
  });

  it("[TYP-2] of a new type begins at version 1 with another's figures, once", async () => {
    const body = { id: "five", name: "Five", from: { id: "four", version: 1 } };
    expect(problem(await ask("ada", "POST", "", body))).toEqual([403, "notQualified"]);
    const made = await ask("di", "POST", "", body);
    expect([made.status, made.body]).toEqual([201, { id: "five", version: 1 }]);
    const five = (await ask("ada", "GET", "/five/1")).body;
    expect(five).toEqual({ ...byDi(), id: "five", name: "Five", author: "Di", approvedBy: null });
    expect(problem(await ask("fay", "POST", "", body))).toEqual([409, "taken"]);
    const from = { id: "six", version: 1 };
    expect(problem(await ask("di", "POST", "", { ...body, id: "seven", from }))).toEqual([404, "notFound"]);
  });

  it("[TYP-4] is changed at the revision that was read; a stale change is refused and changes nothing", async () => {
    await draft();
    const first = await change(25, '"1"');
    expect([first.status, first.headers.etag]).toEqual([200, '"2"']);
    expect((await read(2)).oil.normal.within.value).toBe(25);
    expect(problem(await change(20, '"1"', "fay"))).toEqual([412, "stale"]);
    expect((await read(2)).oil.normal.within.value).toBe(25);
    expect((await ask("ada", "GET", "/four/2")).headers.etag).toBe('"2"');
    for (const tag of [undefined, "*", 'W/"2"', "2", '"x"']) {
      const reply = await ask("di", "PUT", "/four/2", await read(2), tag);
      expect(problem(reply), String(tag)).toEqual([428, "revisionNeeded"]);
    }
  });

  it("[TYP-4] takes one of two changes sent at once", async () => {
    await draft();
    const replies = await Promise.all([change(25, '"1"'), change(24, '"1"', "fay")]);
    expect(replies.map((r) => r.status).sort()).toEqual([200, 412]);
  });

  it("[TYP-3] refuses figures that are not in order, each named, and a change of id or version", async () => {
    await draft();
    const type = await read(2);
    const bad = { ...type, oil: { ...type.oil, normal: { ...type.oil.normal, within: 30 } }, note: "" };
    const reply = await ask("di", "PUT", "/four/2", bad, '"1"');
    expect(problem(reply)).toEqual([422, "faultyType"]);
    expect(reply.body.errors).toEqual([
      { path: "note", message: "must not be empty" },
      { path: "oil.normal.within", message: "is missing" },
    ]);
    expect(reply.body.detail).toContain("oil.normal.within: is missing");
    const moved = await ask("di", "PUT", "/four/2", { ...type, id: "five", version: 9 }, '"1"');
    expect(moved.body.errors.map((e: { path: string }) => e.path)).toEqual(["id", "version"]);
    expect(problem(await ask("ada", "PUT", "/four/2", type, '"1"'))).toEqual([403, "notQualified"]);
    expect(problem(await ask("di", "PUT", "/four/8", type, '"1"'))).toEqual([404, "notFound"]);
  });

  it("[TYP-26, TYP-27] refuses a unit without its figure against the version before, and tells what is far from all published", async () => {
    await draft();
    const type = await read(2);
    const { atLeast } = type.brakePressure;
    const brakes = (value: number, unit: string) => ({
      ...type,
      brakePressure: { atLeast: { ...atLeast, value, unit } },
    });
    const reply = await ask("di", "PUT", "/four/2", brakes(600, "bar"), '"1"');
    expect(problem(reply)).toEqual([422, "faultyType"]);
    expect(reply.body.errors.map((e: { path: string }) => e.path)).toEqual(["brakePressure.atLeast.unit"]);
    // A detour by another figure is seen in the version before.
    expect((await ask("di", "PUT", "/four/2", brakes(41, "bar"), '"1"')).status).toBe(200);
    expect(problem(await ask("di", "PUT", "/four/2", brakes(600, "bar"), '"2"'))).toEqual([
      422,
      "faultyType",
    ]);
    expect((await ask("di", "POST", "/validate", brakes(600, "bar"))).body.faults).toHaveLength(1);
    const slow = (await ask("di", "POST", "/validate", within(type, 900))).body;
    expect([slow.faults, slow.warnings.map((w: { path: string }) => w.path)]).toEqual([
      [],
      ["oil.normal.within"],
    ]);
  });

  it("[TYP-4] names everybody who changed it as its authors, whatever the change says", async () => {
    await draft();
    const forged = { ...(await read(2)), author: "Chief", approvedBy: "Chief" };
    expect((await ask("fay", "PUT", "/four/2", forged, '"1"')).status).toBe(200);
    expect(await read(2)).toMatchObject({ author: "Di, Fay", approvedBy: null });
    expect((await ask("ada", "GET", "")).body[1]).toMatchObject({ status: "draft", approvedBy: null });
  });
});

describe("an approval", () => {
  const approve = (who: string, tag?: string, version = 2, pin = PIN) =>
    ask(who, "POST", `/four/${version}/approval`, { pin }, tag);

  it("[TYP-5] is by a second qualified person, named in the version, which then never changes", async () => {
    await draft();
    await test.hand.pass(1_000);
    const approved = await approve("fay", '"1"');
    expect([approved.status, approved.headers.etag]).toEqual([200, '"2"']);
    expect((await read(2)).approvedBy).toBe("Fay");
    expect((await ask("ada", "GET", "")).body).toMatchObject([
      { version: 1, status: "superseded" },
      { version: 2, status: "approved", approvedBy: "Fay", approvedAt: test.hand.clock.now() },
    ]);
    expect(problem(await change(20, '"2"'))).toEqual([409, "approved"]);
    expect(problem(await approve("fay", '"2"'))).toEqual([409, "approved"]);
    expect((await read(2)).oil).toEqual(APPROVED.oil);
  });

  it("[TYP-5] is refused to the author, to whoever changed it, and to those not qualified", async () => {
    await draft();
    expect(problem(await approve("di", '"1"'))).toEqual([403, "ownWork"]);
    expect(problem(await approve("ada", '"1"'))).toEqual([403, "notQualified"]);
    await change(25, '"1"', "fay");
    for (const who of ["di", "fay"]) expect(problem(await approve(who, '"2"'))).toEqual([403, "ownWork"]);
    expect((await read(2)).approvedBy).toBeNull();
  });

  it("[TYP-5] is of exactly what was read: not of a later revision, not without one", async () => {
    await draft();
    await change(25, '"1"');
    expect(problem(await approve("fay", '"1"'))).toEqual([412, "stale"]);
    expect(problem(await approve("fay"))).toEqual([428, "revisionNeeded"]);
    expect(problem(await approve("fay", '"1"', 5))).toEqual([404, "notFound"]);
    expect((await approve("fay", '"2"')).status).toBe(200);
  });

  it("[TYP-13] asks for the PIN again; without it or with a wrong one nothing is approved, and wrong ones lock", async () => {
    await draft();
    const without = await ask("fay", "POST", "/four/2/approval", {}, '"1"');
    expect(problem(without)).toEqual([400, "malformed"]);
    for (let tries = 0; tries < 5; tries += 1)
      expect(problem(await approve("fay", '"1"', 2, "000000"))).toEqual([403, "wrongPin"]);
    expect(problem(await approve("fay", '"1"'))).toEqual([429, "locked"]);
    expect((await read(2)).approvedBy).toBeNull();
    await test.hand.pass(30_000);
    expect((await approve("fay", '"1"')).status).toBe(200);
  });

  it("[TYP-6] is refused when a newer version is approved already", async () => {
    await draft();
    await draft();
    expect((await approve("fay", '"1"', 3)).status).toBe(200);
    expect(problem(await approve("fay", '"1"', 2))).toEqual([409, "overtaken"]);
  });
});

describe("a type's file", () => {
  const file = async () => (await ask("ada", "GET", "/four/1/export")).text;

  it("[TYP-8] is canonical JSON with a caution, and comes back as a draft with the same figures", async () => {
    const reply = await ask("ada", "GET", "/four/1/export");
    expect(reply.status).toBe(200);
    expect(reply.headers["content-disposition"]).toBe('attachment; filename="chockside-type-four-1.json"');
    expect(reply.text).toBe(canonical(reply.body));
    expect(reply.body.caution).toContain("never replace");
    expect(reply.body.type).toEqual(APPROVED);
    const made = await ask("di", "POST", "/import", reply.body);
    expect([made.status, made.body]).toEqual([201, { id: "four", version: 2 }]);
    expect(await read(2)).toEqual({ ...byDi(), version: 2, author: "Di", approvedBy: null });
    expect(problem(await ask("di", "POST", "/four/2/approval", { pin: PIN }, '"1"'))).toEqual([
      403,
      "ownWork",
    ]);
  });

  it("[TYP-8] of a type not known here makes version 1 of it", async () => {
    const { type, caution } = JSON.parse(await file());
    const made = await ask("di", "POST", "/import", { caution, type: { ...type, id: "six", version: 40 } });
    expect(made.body).toEqual({ id: "six", version: 1 });
  });

  it("[TYP-8] is refused with every fault named, and to those not qualified", async () => {
    const { type, caution } = JSON.parse(await file());
    const bad = { caution, type: { ...type, name: "", propeller: { ...type.propeller, blades: 40 } } };
    const reply = await ask("di", "POST", "/import", bad);
    expect(problem(reply)).toEqual([422, "faultyType"]);
    expect(reply.body.errors).toEqual([
      { path: "type.name", message: "must not be empty" },
      { path: "type.propeller.blades", message: "must be at most 6" },
    ]);
    for (const nothing of [{}, [], { caution }, { ...type, caution }])
      expect(problem(await ask("di", "POST", "/import", nothing))).toEqual([422, "faultyType"]);
    expect(problem(await ask("ada", "POST", "/import", { caution, type }))).toEqual([403, "notQualified"]);
    expect((await ask("ada", "GET", "")).body).toHaveLength(1);
    expect(problem(await ask("ada", "GET", "/four/9/export"))).toEqual([404, "notFound"]);
  });

  it("[SRV-2] is refused when it is larger than any type", async () => {
    const huge = { caution: "x".repeat(600 * 1024), type: {} };
    expect(problem(await ask("di", "POST", "/import", huge))).toEqual([413, "tooLarge"]);
  });
});

describe("planning", () => {
  const plan = (over: Record<string, unknown> = {}) =>
    test.app.inject({
      method: "POST",
      url: "/api/sessions",
      headers: bearer(tokens.di ?? ""),
      payload: planBody(over),
    });

  it("[TYP-7] is refused on a draft: of an aircraft whose type has nothing else, and by its number", async () => {
    await ask("di", "POST", "", { id: "five", name: "Five", from: { id: "four", version: 1 } });
    await addAircraft(test.services.directory, { id: "CH-NEW", name: "New bird", typeId: "five" });
    await draft();
    const lone = await plan({ aircraft: "CH-NEW" });
    expect([lone.statusCode, lone.json().errors]).toEqual([
      422,
      [{ path: "aircraft", message: "no version of its type five is approved: a draft cannot be planned" }],
    ]);
    const numbered = await plan({ typeVersion: 2 });
    expect([numbered.statusCode, numbered.json().errors[0].path]).toEqual([422, "typeVersion"]);
    const listed = await test.app.inject({ url: "/api/aircraft", headers: bearer(tokens.di ?? "") });
    expect(listed.json()).toMatchObject([
      { id: "CH-NEW", bar: { is: "noneApproved", typeId: "five" } },
      { id: "CH-TST", typeVersion: 1, bar: null },
    ]);
  });

  it("[TYP-7] pins the version that is approved then, whatever is approved later", async () => {
    const stateOf = async (id: string) =>
      (await test.app.inject({ url: `/api/sessions/${id}`, headers: bearer(tokens.di ?? "") })).json().state;
    await draft();
    await change(25, '"1"');
    const first = (await plan({ typeVersion: 1 })).json();
    await ask("fay", "POST", "/four/2/approval", { pin: PIN }, '"2"');
    await moveTo(test.app, tokens.di ?? "", 2);
    const second = (await plan({ typeVersion: 2 })).json();
    expect((await stateOf(first.id)).type).toMatchObject({
      version: 1,
    });
    expect((await stateOf(second.id)).type).toMatchObject({
      version: 2,
      oil: { normal: { within: { value: 25 } } },
    });
    expect((await plan({ typeVersion: 1 })).statusCode).toBe(422);
  });
});

describe("who may come in without a sign-in", () => {
  it.each([
    ["GET", "/schema"],
    ["GET", "/four/1/export"],
    ["POST", "/validate"],
    ["POST", ""],
    ["POST", "/import"],
    ["POST", "/four/drafts"],
    ["PUT", "/four/1"],
    ["POST", "/four/1/approval"],
    ["DELETE", "/four/1"],
  ] as const)("[SRV-3] nobody at %s /api/types%s", async (method, url) => {
    expect(problem(await ask("nobody", method, url, method === "GET" ? undefined : {}))).toEqual([
      401,
      "signInNeeded",
    ]);
  });
});

describe("a draft that is discarded", () => {
  const discard = (who: string, tag?: string, version = 2) =>
    ask(who, "DELETE", `/four/${version}`, undefined, tag);
  const versions = async () =>
    (await ask("ada", "GET", "")).body.map((t: { version: number }) => t.version) as number[];

  it("[TYP-14] is gone, and its number is not used again", async () => {
    await draft();
    expect((await discard("fay", '"1"')).status).toBe(204);
    expect(await versions()).toEqual([1]);
    expect(problem(await ask("ada", "GET", "/four/2"))).toEqual([404, "notFound"]);
    expect((await draft()).body).toEqual({ id: "four", version: 3 });
    expect(problem(await discard("fay", '"1"'))).toEqual([404, "notFound"]);
  });

  it("[TYP-14] only a draft, only by somebody qualified, and only as it was read", async () => {
    await draft();
    expect(problem(await discard("ada", '"1"'))).toEqual([403, "notQualified"]);
    expect(problem(await discard("di"))).toEqual([428, "revisionNeeded"]);
    await change(25, '"1"');
    expect(problem(await discard("fay", '"1"'))).toEqual([412, "stale"]);
    expect(problem(await discard("di", '"1"', 1))).toEqual([409, "approved"]);
    expect(await versions()).toEqual([1, 2]);
  });
});

describe("a version that was changed after its approval", () => {
  it("[TYP-31] is not shown, exported, copied or planned, and each says why", async () => {
    const { directory } = test.services;
    const rows = await directory.storedTypes();
    directory.storedTypes = async () => rows.map((row) => ({ ...row, body: row.body.replace("600", "60") }));
    const why = "version 1 of four is not what was approved: restore a backup of the database";
    for (const reply of [
      await ask("ada", "GET", "/four/1"),
      await ask("ada", "GET", "/four/1/export"),
      await draft(),
    ]) {
      expect(problem(reply)).toEqual([409, "notAsApproved"]);
      expect(reply.body.detail).toBe(why);
    }
    const headers = bearer(tokens.di ?? "");
    const plan = await test.app.inject({
      method: "POST",
      url: "/api/sessions",
      headers,
      payload: planBody(),
    });
    expect([plan.statusCode, plan.json().errors]).toEqual([422, [{ path: "aircraft", message: why }]]);
    directory.storedTypes = async () => {
      throw new Error("database disk image is malformed");
    };
    expect((await ask("ada", "GET", "/four/1")).body.detail).toMatch(/types cannot be read/);
  });
});

describe("in a real house", () => {
  beforeEach(async () => {
    await test.close();
    test = await testServer({ demoFigures: false });
    for (const who of ["di", "fay", "ada"]) tokens[who] = await signIn(test.app, who);
  });

  it("[TYP-34] refuses to approve what is invented or about another type, figure by figure", async () => {
    await draft();
    const approve = (tag: string) => ask("fay", "POST", "/four/2/approval", { pin: PIN }, tag);
    const refused = await approve('"1"');
    expect(problem(refused)).toEqual([422, "faultyType"]);
    expect(refused.body.errors).toContainEqual({
      path: "brakePressure.atLeast",
      message: "invented: give the manual's figure with its page",
    });
    const { plan, engines, propeller, orderSource: source } = APPROVED;
    const sourced = {
      ...{ ...APPROVED, plan: { ...plan, source }, propeller: { ...propeller, source } },
      engines: engines.map((e) => ({ ...e, source })),
    };
    const ours = (basis: string) =>
      JSON.parse(JSON.stringify(sourced).replaceAll('"invented"', JSON.stringify(basis)));
    const other = { ...ours("anotherType"), version: 2 };
    expect((await ask("di", "PUT", "/four/2", other, '"1"')).status).toBe(200);
    expect((await approve('"2"')).body.errors[0].message).toMatch(/about another type/);
    expect((await ask("di", "PUT", "/four/2", { ...ours("published"), version: 2 }, '"2"')).status).toBe(200);
    expect((await approve('"3"')).status).toBe(200);
  });

  it("[TYP-34] plans no start on such a version, and says why", async () => {
    const headers = bearer(tokens.ada ?? "");
    const plan = await test.app.inject({
      method: "POST",
      url: "/api/sessions",
      headers,
      payload: planBody(),
    });
    expect(plan.statusCode).toBe(422);
    expect(plan.json().detail).toMatch(
      /figures that are invented or about another type: it is for the demo alone/,
    );
  });
});
