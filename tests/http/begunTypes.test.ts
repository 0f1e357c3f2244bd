import { afterEach, beforeEach, expect, it } from "vitest";
import { leastType } from "../types/least.ts";
import { bearer, crewDirectory, signIn, type TestServer, testServer } from "./test-server.ts";

let test: TestServer;
beforeEach(async () => {
  test = await testServer({ directory: await crewDirectory(), demoFigures: false });
});
afterEach(() => test.close());

interface Options {
  as: string;
  tag?: string;
  payload?: object;
}

async function send(method: "GET" | "POST" | "PUT" | "DELETE", url: string, { as, tag, payload }: Options) {
  const headers = { ...bearer(await signIn(test.app, as)), ...(tag ? { "if-match": tag } : {}) };
  return test.app.inject({ method, url: `/api${url}`, headers, ...(payload ? { payload } : {}) });
}
const BEGIN = { id: "wren-twin", name: "Wren twin", engines: 2 };
const problemOf = (reply: { json(): { type: string } }) => reply.json().type.split(":").at(-1);

it("[TYP-35] a type begins with every figure blank, is kept with its gaps, and becomes a draft once it is in order", async () => {
  expect((await send("POST", "/begun-types", { as: "ada", payload: BEGIN })).statusCode).toBe(403);
  expect((await send("POST", "/begun-types", { as: "di", payload: BEGIN })).statusCode).toBe(201);
  expect(problemOf(await send("POST", "/begun-types", { as: "fay", payload: BEGIN }))).toBe("taken");
  const first = await send("GET", "/begun-types/wren-twin", { as: "ada" });
  expect(first.json().entered).toEqual({ name: "Wren twin", engines: [{ n: 1 }, { n: 2 }] });

  const early = await send("POST", "/begun-types/wren-twin/draft", { as: "di", tag: '"1"' });
  expect(problemOf(early)).toBe("faultyType");
  expect(early.json().errors.map((e: { path: string }) => e.path)).toContain("plan");
  const gaps = { name: "Wren twin", engines: [{ n: 1, x: "soon" }], plan: { span: 28 } };
  const part = { as: "di", tag: '"1"', payload: gaps };
  expect((await send("PUT", "/begun-types/wren-twin", part)).statusCode).toBe(200);
  const late = await send("PUT", "/begun-types/wren-twin", { ...part, as: "fay" });
  expect([late.statusCode, problemOf(late)]).toEqual([412, "stale"]);
  expect((await send("GET", "/begun-types/wren-twin", { as: "bo" })).json()).toMatchObject({
    by: "Di",
    entered: gaps,
  });

  const whole = { as: "fay", tag: '"2"', payload: leastType() };
  expect((await send("PUT", "/begun-types/wren-twin", whole)).statusCode).toBe(200);
  const made = await send("POST", "/begun-types/wren-twin/draft", { as: "fay", tag: '"3"' });
  expect([made.statusCode, made.json()]).toEqual([201, { id: "wren-twin", version: 1 }]);
  const draft = (await send("GET", "/types/wren-twin/1", { as: "bo" })).json();
  expect(draft).toMatchObject({ author: "Di, Fay", plan: { source: { by: "Fay" } } });
  expect((await send("GET", "/begun-types", { as: "bo" })).json()).toEqual([]);
  expect(problemOf(await send("POST", "/begun-types", { as: "di", payload: BEGIN }))).toBe("taken");
});

it("[TYP-35] a begun type is given up as it was read, and may be begun again", async () => {
  await send("POST", "/begun-types", { as: "di", payload: BEGIN });
  expect((await send("DELETE", "/begun-types/wren-twin", { as: "di", tag: '"2"' })).statusCode).toBe(412);
  expect((await send("DELETE", "/begun-types/wren-twin", { as: "di", tag: '"1"' })).statusCode).toBe(204);
  expect((await send("GET", "/begun-types/wren-twin", { as: "di" })).statusCode).toBe(404);
  expect((await send("POST", "/begun-types", { as: "di", payload: BEGIN })).json().revision).toBe(3);
});

it("[TYP-37] outside the demo a type without the source of a measure becomes no draft and is not approved", async () => {
  const bare = leastType();
  delete bare.plan.source;
  await send("POST", "/begun-types", { as: "di", payload: BEGIN });
  await send("PUT", "/begun-types/wren-twin", { as: "di", tag: '"1"', payload: bare });
  const refused = await send("POST", "/begun-types/wren-twin/draft", { as: "di", tag: '"2"' });
  expect(refused.json().errors).toMatchObject([{ path: "plan.source" }]);
  await send("POST", "/types/import", { as: "di", payload: bare });
  const approval = await send("POST", "/types/wren-twin/1/approval", {
    as: "fay",
    tag: '"1"',
    payload: { pin: "271828" },
  });
  expect([approval.statusCode, approval.json().errors[0].path]).toEqual([422, "plan.source"]);
});

it("[TYP-3] what is larger or deeper than any type is refused with its place", async () => {
  await send("POST", "/begun-types", { as: "di", payload: BEGIN });
  const deep = JSON.parse(`${'{"a":'.repeat(40)}1${"}".repeat(40)}`);
  const reply = await send("PUT", "/begun-types/wren-twin", { as: "di", tag: '"1"', payload: deep });
  expect([reply.statusCode, reply.json().errors[0].message]).toEqual([
    422,
    expect.stringContaining("deeper"),
  ]);
});
