import { afterAll, beforeAll, expect, it, vi } from "vitest";
import { demo } from "../../seed/demo-data.ts";
import { oversize } from "../../server/types/size.ts";
import { aircraftTypeSchema } from "../../shared/types/schema.ts";
import { readAircraftType } from "../../shared/types/validate.ts";
import { APPROVED, bearer, signIn, type TestServer, testServer } from "../http/test-server.ts";

let test: TestServer;
beforeAll(async () => {
  test = await testServer();
});
afterAll(() => test.close());

const many = (n: number) => Array.from({ length: n }, () => "noStopOpen");
const judge = async (handle: string, payload: object) =>
  test.app.inject({
    method: "POST",
    url: "/api/types/validate",
    headers: bearer(await signIn(test.app, handle)),
    payload,
  });

it.each<[string, object]>([
  ["a list of ten thousand conditions", { ...APPROVED, conditions: many(10_000) }],
  ["ten thousand lists in lists", { ...APPROVED, overridable: Array(150).fill(Array(150).fill(0)) }],
  ["an object of ten thousand members", Object.fromEntries(many(10_000).map((_, n) => [`k${n}`, 0]))],
])("[SEC-22] %s is refused without the schema reading a value of it", async (_what, type) => {
  const parse = vi.spyOn(aircraftTypeSchema, "safeParse");
  const { statusCode, body } = await judge("di", type);
  expect([statusCode, JSON.parse(body).faults.length]).toEqual([200, 1]);
  expect(body.length).toBeLessThan(200);
  expect(parse).not.toHaveBeenCalled();
  const draft = await test.app.inject({
    method: "POST",
    url: "/api/types/import",
    headers: bearer(await signIn(test.app, "di")),
    payload: { caution: "c", type },
  });
  expect(draft.statusCode).toBe(422);
  expect(parse).not.toHaveBeenCalled();
});

it("[SEC-22] a body larger than any type is not even parsed", async () => {
  expect((await judge("di", { note: "x".repeat(200_000) })).statusCode).toBe(413);
});

it("[SEC-22] at most 200 faults are reported of one that is wrong everywhere", async () => {
  const wrong = Array.from({ length: 30 }, () => Object.fromEntries(many(190).map((_, n) => [`k${n}`, 1])));
  const checks = Array.from({ length: 199 }, () => ({ id: 1, words: 2, stage: 3, post: 4, source: 5 }));
  const { faults } = (await judge("di", { ...APPROVED, gauges: wrong, checks })).json();
  expect(faults).toHaveLength(200);
});

it("[SEC-22] it is judged only for supervisors", async () => {
  for (const handle of ["ada", "bo", "cy", "ed"])
    expect((await judge(handle, APPROVED)).statusCode).toBe(403);
  expect((await judge("di", APPROVED)).json()).toEqual({ faults: [], warnings: [] });
});

it("[SEC-22] the schema itself takes no list without end, and every type of the demo is far from the bounds", () => {
  for (const list of ["conditions", "overridable", "requiredPosts"] as const)
    expect(readAircraftType({ ...APPROVED, [list]: many(65) })).toHaveProperty("faults");
  for (const type of demo.types) {
    const wide = {
      ...type,
      doubled: Array(100).fill(0),
      more: Array(7).fill(Array.from({ length: 190 }, () => type.note)),
    };
    expect(oversize(type)).toBeNull();
    expect(oversize(wide)).toBeNull();
    expect(JSON.stringify(type).length).toBeLessThan(72 * 1024);
  }
});
