import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { transform } from "esbuild";
import { generateApi } from "swagger-typescript-api";
import { afterAll, beforeAll, expect, it } from "vitest";
import type { Client } from "./clientPort.ts";
import { planned, signIn, type TestServer, testServer } from "./test-server.ts";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));
/** As strict as a program of another system may be. */
const STRICT = [
  ...[
    "--noEmit",
    "--strict",
    "--skipLibCheck",
    "--ignoreConfig",
    "--allowImportingTsExtensions",
    "--types",
    "node",
  ],
  ...[
    "--target",
    "es2022",
    "--module",
    "esnext",
    "--moduleResolution",
    "bundler",
    "--lib",
    "es2023,dom,dom.iterable",
  ],
];

type Json = { [key: string]: Json } | Json[] | string | number | boolean | null;
interface Operation {
  operationId?: string;
  requestBody?: Json;
  responses: Record<string, Json>;
}
interface Description {
  paths: Record<string, Record<string, Operation>>;
  components: { schemas: Record<string, Json> };
}

let test: TestServer;
let folder: string;
let make: (token: string) => Client;
let document: Description;
let source: string;
const ids: string[] = [];

beforeAll(async () => {
  test = await testServer();
  await test.app.listen({ port: 0, host: "127.0.0.1" });
  folder = mkdtempSync(join(tmpdir(), "chockside-client-"));
  document = (await test.app.inject({ url: "/docs/json" })).json();
  const { files } = await generateApi({
    spec: document as never,
    ...{ output: false, silent: true, httpClientType: "fetch" },
  });
  source = files[0]?.fileContent ?? "";
  const { code } = await transform(source, { loader: "ts", format: "esm" });
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
}, 240_000);
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
  const { data } = await display.listSessions();
  expect(data.map((s) => s.id)).toEqual(ids);
  const stop = new AbortController();
  const stream = await display.followLive({ session: ids[0] ?? "" }, { signal: stop.signal });
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
  await expect(display.exportSession(ids[0] ?? "")).rejects.toMatchObject({ status: 403 });
});

it("[INT-34] a generated client plays a maintenance pull: every session once, each with its whole record", async () => {
  const pull = await account("readRecords");
  const found: string[] = [];
  let query: { limit?: number; before?: string } | null = { limit: 2 };
  while (query !== null) {
    const page: Awaited<ReturnType<Client["listSessions"]>> = await pull.listSessions(query);
    found.push(...page.data.map((s) => s.id));
    const next = /<(.*)>; rel="next"/.exec(page.headers.get("link") ?? "")?.[1];
    query = next === undefined ? null : Object.fromEntries(new URL(next, "http://x").searchParams);
  }
  expect(found).toEqual(ids);
  for (const id of found) {
    const { data } = await pull.listEvents(id);
    const evidence = await pull.exportSession(id, {}, { format: "text" });
    const sealed = String(evidence.data)
      .split("\n")
      .filter((line) => line.includes('"prev"'));
    expect(sealed).toHaveLength(data.events.length);
  }
  const key = await pull.readEvidenceKey();
  expect(key.data).toMatchObject({ algorithm: expect.any(String) });
});

const operations = () =>
  Object.entries(document.paths).flatMap(([path, methods]) =>
    Object.entries(methods).map(([method, operation]) => ({ at: `${method} ${path}`, operation })),
  );

it("[INT-40] every operation has a name of its own that begins with a verb, and is a method of the client", () => {
  const names = operations().map(({ at, operation }) => operation.operationId ?? at);
  expect(names.length).toBeGreaterThan(100);
  expect(names.filter((name) => !/^[a-z]+([A-Z][a-z]+)*$/.test(name))).toEqual([]);
  expect(new Set(names).size).toBe(names.length);
  expect(names.filter((name) => !source.includes(`    ${name}: (`))).toEqual([]);
});

it("[INT-40] the whole client compiles, and is the client of the programs here", async () => {
  const file = join(folder, "client.ts");
  const check = join(folder, "check.ts");
  writeFileSync(file, source.replace("// @ts-nocheck", ""));
  const port = join(ROOT, "tests/http/clientPort.ts");
  const held = (of: string) =>
    `import { Api } from "./client.ts"; import type { Client } from ${JSON.stringify(port)};
     export const client: ${of} = new Api().api;`;
  const tsc = (code: string) => {
    writeFileSync(check, code);
    const types = ["--typeRoots", join(ROOT, "node_modules/@types")];
    const run = spawnSync(
      process.execPath,
      [join(ROOT, "node_modules/typescript/bin/tsc"), ...STRICT, ...types, check],
      {
        encoding: "utf8",
      },
    );
    return run.stdout + run.stderr;
  };
  expect(tsc(held("Client"))).toBe("");
  expect(tsc(held("Client & { listSessions(): Promise<{ data: number }> }"))).toContain("TS2322");
}, 60_000);

/** Returns true where the description itself leaves open what stands there. */
const isOpen = (json: Json): boolean => {
  if (Array.isArray(json)) return json.some(isOpen);
  if (typeof json !== "object" || json === null) return false;
  return Object.entries(json).some(([key, value]) => {
    const bare =
      typeof value === "object" && value !== null && Object.keys(value).every((k) => k === "description");
    return (["schema", "items", "additionalProperties"].includes(key) && bare) || isOpen(value);
  });
};

it("[INT-41] no body that the description has a form for is any in the client", () => {
  const code = source.replaceAll(/\/\*[\s\S]*?\*\//g, "");
  const models = code.slice(0, code.indexOf("export type QueryParamsType"));
  expect(models).toContain("export interface AircraftType");
  expect(models).not.toMatch(/\bany\b/);
  const left: string[] = [];
  for (const { operation } of operations()) {
    const { operationId = "" } = operation;
    const begin = code.indexOf(`    ${operationId}: (`);
    const end = code.indexOf("...params,", begin);
    const isAny = /\bany\b/.test(code.slice(begin, end));
    const mayBe = isOpen({ body: operation.requestBody ?? null, responses: operation.responses });
    if (isAny && !mayBe) left.push(operationId);
  }
  expect(left).toEqual([]);
  // What has no form of its own: a state as panels hold it, what Web Authentication defines, and types that are judged.
  const open = operations().filter(({ operation: { requestBody = null, responses } }) =>
    isOpen([requestBody, responses]),
  );
  expect(open.map(({ operation }) => operation.operationId).sort()).toEqual([
    ...[
      "addMyPasskey",
      "changeBegunType",
      "changeDraft",
      "importType",
      "newPasskeyOptions",
      "passkeySignInOptions",
    ],
    ...[
      "readBegunType",
      "readNoise",
      "readRehearsedWorld",
      "readSession",
      "readTypeSchema",
      "signInByPasskey",
    ],
    "validateType",
  ]);
});

it("[INT-41] the description has one schema for one thing", () => {
  const form = (json: Json): Json =>
    Array.isArray(json)
      ? json.map(form)
      : typeof json === "object" && json !== null
        ? Object.fromEntries(
            Object.entries(json)
              .filter(([key]) => key !== "description")
              .sort()
              .map(([key, value]) => [key, form(value)]),
          )
        : json;
  const places = new Map<string, string[]>();
  const look = (json: Json, path: string): void => {
    if (typeof json !== "object" || json === null) return;
    if (!Array.isArray(json) && ("properties" in json || "oneOf" in json)) {
      const text = JSON.stringify(form(json));
      // A figure with its range and its source is repeated: another one with the same range is not the same thing.
      if (text.length > 400) places.set(text, [...(places.get(text) ?? []), path]);
    }
    for (const [key, value] of Object.entries(json)) look(value, `${path}/${key}`);
  };
  look(document.paths as never, "");
  look(document.components as never, "components");
  expect(places.size).toBeGreaterThan(50);
  expect([...places.values()].filter((at) => at.length > 1)).toEqual([]);
  // Every component is referred to.
  const text = JSON.stringify(document);
  const unused = Object.keys(document.components.schemas).filter(
    (name) => !text.includes(`"#/components/schemas/${name}"`),
  );
  expect(unused).toEqual([]);
});

it("[INT-35] every route refuses a filter that it does not know", async () => {
  const token = await signIn(test.app, "di");
  const odd: string[] = [];
  let asked = 0;
  for (const [path, methods] of Object.entries(document.paths)) {
    if (!path.startsWith("/api/") || !("get" in methods)) continue;
    asked += 1;
    const url = `${path.replaceAll(/\{\w+\}/g, "1")}?nosuchfilter=1`;
    const reply = await test.app.inject({ url, headers: { authorization: `Bearer ${token}` } });
    if (reply.statusCode !== 400) odd.push(`${path}: ${reply.statusCode}`);
  }
  expect(asked).toBeGreaterThan(30);
  expect(odd).toEqual([]);
});
