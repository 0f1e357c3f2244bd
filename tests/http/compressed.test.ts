import { gunzipSync } from "node:zlib";
import { afterAll, beforeAll, expect, it } from "vitest";
import { APPROVED, bearer, PIN, planBody, signIn, type TestServer, testServer } from "./test-server.ts";

let test: TestServer;
let headers: Record<string, string>;
let session: string;
beforeAll(async () => {
  test = await testServer();
  headers = { ...bearer(await signIn(test.app, "di")), "accept-encoding": "gzip, deflate, br" };
  const planned = await test.app.inject({
    method: "POST",
    url: "/api/sessions",
    headers,
    payload: planBody(),
  });
  session = planned.json().id;
});
afterAll(() => test.close());

it.each([
  ["a type", () => `/api/types/${APPROVED.id}/${APPROVED.version}`],
  ["a session's state", () => `/api/sessions/${session}`],
  ["a session's events", () => `/api/sessions/${session}/events`],
])("[SEC-60] %s is compressed for a reader who takes it, and reads the same", async (_what, url) => {
  const packed = await test.app.inject({ url: url(), headers });
  expect(packed.headers["content-encoding"]).toBe("gzip");
  expect(packed.headers.vary).toMatch(/accept-encoding/i);
  const plain = await test.app.inject({ url: url(), headers: { ...headers, "accept-encoding": "identity" } });
  expect(plain.headers["content-encoding"]).toBeUndefined();
  const read = (body: string | Buffer) => ({ ...JSON.parse(body.toString()), serverNow: 0 });
  expect(read(gunzipSync(packed.rawPayload))).toEqual(read(plain.body));
  expect(packed.rawPayload.length).toBeLessThan(plain.body.length / 2);
});

it("[SEC-60] no other answer is compressed, however long it is", async () => {
  const longest: Record<string, number> = {};
  for (const url of ["/api/types/schema", "/api/people", "/api/house", `/api/sessions/${session}/evidence`]) {
    const reply = await test.app.inject({ url, headers });
    expect(reply.headers["content-encoding"], url).toBeUndefined();
    longest[url] = reply.rawPayload.length;
  }
  // Long enough that the three above would be compressed.
  expect(Math.max(...Object.values(longest))).toBeGreaterThan(10_000);
  const entered = await test.app.inject({
    ...{ method: "POST", url: "/api/sign-in", headers: { "accept-encoding": "gzip" } },
    payload: { handle: "bo", pin: PIN, device: "tablet-4" },
  });
  expect(entered.headers["content-encoding"]).toBeUndefined();
});
