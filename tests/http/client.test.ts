import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { transform } from "esbuild";
import { generateApi } from "swagger-typescript-api";
import { afterAll, beforeAll, expect, it } from "vitest";
import { planned, signIn, type TestServer, testServer } from "./test-server.ts";

/** The paths that other systems read. The whole description would take the generator twenty seconds. */
const READ = [
  "/api/sessions",
  "/api/sessions/{id}",
  "/api/sessions/{id}/events",
  "/api/sessions/{id}/evidence",
  "/api/evidence/key",
  "/api/live",
];

interface Answer<T> extends Response {
  data: T;
}

/** The methods of the generated client that are used here. */
interface Client {
  sessionsList(query?: object): Promise<Answer<{ id: string }[]>>;
  sessionsEventsList(id: string): Promise<Answer<{ events: { seq: number }[] }>>;
  sessionsEvidenceList(id: string, query?: object, how?: object): Promise<Answer<string>>;
  evidenceKeyList(): Promise<Answer<object>>;
  liveList(query: object, how: object): Promise<Answer<never>>;
}

let test: TestServer;
let folder: string;
let make: (token: string) => Client;
const ids: string[] = [];

beforeAll(async () => {
  test = await testServer();
  await test.app.listen({ port: 0, host: "127.0.0.1" });
  folder = mkdtempSync(join(tmpdir(), "chockside-client-"));
  const document = (await test.app.inject({ url: "/docs/json" })).json();
  const paths = Object.fromEntries(READ.map((path) => [path, { get: document.paths[path].get }]));
  const { files } = await generateApi({
    spec: { ...document, paths },
    ...{ output: false, silent: true, httpClientType: "fetch" },
  });
  const { code } = await transform(files[0]?.fileContent ?? "", { loader: "ts", format: "esm" });
  const file = join(folder, "client.mjs");
  writeFileSync(file, code);
  const { Api } = await import(/* @vite-ignore */ pathToFileURL(file).href);
  const baseUrl = `http://127.0.0.1:${(test.app.server.address() as AddressInfo).port}`;
  make = (token) => {
    const baseApiParams = { headers: { authorization: `Bearer ${token}` } };
    return new Api({ baseUrl, baseApiParams }).api;
  };
  const fay = await signIn(test.app, "fay");
  for (let n = 0; n < 5; n += 1) {
    ids.unshift((await planned(test.app, fay)).id);
    await test.hand.leap(1_000);
  }
}, 120_000);
afterAll(async () => {
  await test.close();
  rmSync(folder, { recursive: true, force: true });
});

const account = async (is: "readLive" | "readRecords") =>
  make(
    (
      await test.services.accounts.add(
        { id: "di", name: "Di", mayHold: ["supervisor"] },
        { name: is, until: "2026-06-09", scopes: [{ is }] },
      )
    ).token,
  );

it("[INT-34] a generated client plays a wall display: it lists what runs and follows it", async () => {
  const display = await account("readLive");
  const { data } = await display.sessionsList();
  expect(data.map((s) => s.id)).toEqual(ids);
  const stop = new AbortController();
  const stream = await display.liveList({ session: ids[0] }, { signal: stop.signal, format: undefined });
  const reader = stream.body?.pipeThrough(new TextDecoderStream()).getReader();
  let text = "";
  const upTo = async (words: string) => {
    while (!text.includes(words)) text += (await reader?.read())?.value ?? "";
  };
  await upTo("event: state");
  const act = { type: "claimPost", post: "supervisor" } as const;
  const di = { id: "di", name: "Di", device: "di-tablet", mayHold: ["supervisor" as const] };
  const id = "40000000-0000-4000-8000-000000000001";
  await test.services.sessions.command(di, {
    ...{ v: 1, id, session: ids[0] ?? "", clientAt: 0, action: act },
  });
  await upTo('"type":"postTaken"');
  stop.abort();
  // It may read nothing else.
  await expect(display.sessionsEvidenceList(ids[0] ?? "")).rejects.toMatchObject({ status: 403 });
});

it("[INT-34] a generated client plays a maintenance pull: every session once, each with its whole record", async () => {
  const pull = await account("readRecords");
  const found: string[] = [];
  let query: object | null = { limit: 2 };
  while (query !== null) {
    const page = await pull.sessionsList(query);
    found.push(...page.data.map((s) => s.id));
    const next = /<(.*)>; rel="next"/.exec(page.headers.get("link") ?? "")?.[1];
    query = next === undefined ? null : Object.fromEntries(new URL(next, "http://x").searchParams);
  }
  expect(found).toEqual(ids);
  for (const id of found) {
    const { data } = await pull.sessionsEventsList(id);
    const evidence = await pull.sessionsEvidenceList(id, {}, { format: "text" });
    const sealed = evidence.data.split("\n").filter((line) => line.includes('"prev"'));
    expect(sealed).toHaveLength(data.events.length);
  }
  const key = await pull.evidenceKeyList();
  expect(key.data).toMatchObject({ algorithm: expect.any(String) });
});

it("[INT-35] every route refuses a filter that it does not know", async () => {
  const document = (await test.app.inject({ url: "/docs/json" })).json();
  const token = await signIn(test.app, "di");
  const odd: string[] = [];
  let asked = 0;
  for (const [path, methods] of Object.entries<Record<string, unknown>>(document.paths)) {
    if (!path.startsWith("/api/") || !("get" in methods)) continue;
    asked += 1;
    const url = `${path.replaceAll(/\{\w+\}/g, "1")}?nosuchfilter=1`;
    const reply = await test.app.inject({ url, headers: { authorization: `Bearer ${token}` } });
    if (reply.statusCode !== 400) odd.push(`${path}: ${reply.statusCode}`);
  }
  expect(asked).toBeGreaterThan(30);
  expect(odd).toEqual([]);
});
