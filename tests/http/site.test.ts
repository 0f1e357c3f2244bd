import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Writable } from "node:stream";
import { pino } from "pino";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { createApp } from "../../server/app.ts";
import { LOG_OPTIONS } from "../../server/log.ts";
import { StoreFailure } from "../../server/store/events.ts";
import { MemoryEventStore } from "../../server/store/memory-events.ts";
import { bearer, PIN, signIn, type TestServer, testServer } from "./test-server.ts";

let folder: string;
let test: TestServer;

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), "chockside-site-"));
  mkdirSync(join(folder, "assets"));
  writeFileSync(join(folder, "index.html"), "<title>Chockside</title>");
  writeFileSync(join(folder, "assets", "main-abc123.js"), "console.log(1)");
  test = await testServer({ site: folder });
});
afterAll(async () => {
  await test.close();
  rmSync(folder, { recursive: true, force: true });
});

const get = (url: string, headers = {}) => test.app.inject({ url, headers });

describe("the panels", () => {
  it.each(["/", "/ramp", "/session/7/cockpit", "/?join=ACDEFG"])("[SRV-9] are served at %s", async (url) => {
    const reply = await get(url);
    expect([reply.statusCode, reply.body]).toEqual([200, "<title>Chockside</title>"]);
    expect(reply.headers["content-type"]).toMatch(/^text\/html/);
    expect(reply.headers["cache-control"]).toBe("no-cache");
  });

  it("[SRV-9] have files that never change under one name", async () => {
    const reply = await get("/assets/main-abc123.js");
    expect([reply.statusCode, reply.body]).toEqual([200, "console.log(1)"]);
    expect(reply.headers["cache-control"]).toContain("immutable");
  });

  it.each(["/api/none", "/assets/none.js", "/health/none", "/api"])(
    "[SRV-1] are not what %s gets",
    async (url) => {
      const reply = await get(url);
      expect(reply.statusCode).toBe(404);
      expect(reply.headers["content-type"]).toMatch(/^application\/problem\+json/);
      expect(reply.json()).toMatchObject({ type: "urn:chockside:problem:notFound", status: 404 });
    },
  );

  it("[SRV-9] give nothing of what lies beside them", async () => {
    for (const url of ["/../package.json", "/%2e%2e/package.json", "/assets/..%2f..%2fpackage.json"])
      expect((await get(url)).body).not.toContain("dependencies");
  });

  it("[SRV-9] that are not built say how to build them", async () => {
    const bare = await testServer();
    const reply = await bare.app.inject({ url: "/" });
    await bare.close();
    expect(reply.statusCode).toBe(404);
    expect(reply.json().detail).toContain("npm run build");
  });
});

describe("headers", () => {
  it("[SRV-10] let a page load its own files alone, and no script within the page", async () => {
    const policy = String((await get("/")).headers["content-security-policy"]);
    expect(policy).toContain("default-src 'self'");
    expect(policy).toContain("script-src 'self';");
    expect(policy).toContain("frame-ancestors 'none'");
    expect(policy).not.toMatch(/unsafe|\*|https?:/);
  });

  it("[SRV-10] keep answers of the API out of caches", async () => {
    const token = await signIn(test.app, "ada");
    expect((await get("/api/me", bearer(token))).headers["cache-control"]).toBe("no-store");
  });
});

describe("the documentation", () => {
  it("[SRV-11] describes every route of the API, its input and its answers", async () => {
    const { paths } = (await get("/docs/json")).json();
    expect(Object.keys(paths).sort()).toEqual([
      "/api/aircraft",
      "/api/aircraft/{id}",
      "/api/aircraft/{id}/changes",
      "/api/aircraft/{id}/channels",
      "/api/aircraft/{id}/defects",
      "/api/aircraft/{id}/defects/trend",
      "/api/aircraft/{id}/defects/{defect}/pictures",
      "/api/aircraft/{id}/defects/{defect}/pictures/{sha256}",
      "/api/aircraft/{id}/defects/{defect}/pictures/{sha256}/removal",
      "/api/aircraft/{id}/evidence",
      "/api/aircraft/{id}/history",
      "/api/aircraft/{id}/hours",
      "/api/aircraft/{id}/notes",
      "/api/aircraft/{id}/pictures",
      "/api/aircraft/{id}/reports",
      "/api/aircraft/{id}/retired",
      "/api/aircraft/{id}/standing",
      "/api/begun-types",
      "/api/begun-types/{id}",
      "/api/begun-types/{id}/draft",
      "/api/card.pdf",
      "/api/confirm",
      "/api/currencies",
      "/api/currencies/{id}",
      "/api/demo",
      "/api/devices",
      "/api/devices/codes",
      "/api/devices/{id}/revocation",
      "/api/due-calendar/{token}",
      "/api/dues",
      "/api/dues.ics",
      "/api/dues.pdf",
      "/api/engines/{serial}/history",
      "/api/equipment",
      "/api/equipment/{id}",
      "/api/equipment/{id}/changes",
      "/api/equipment/{id}/out",
      "/api/evidence/key",
      "/api/feeds/{aircraft}",
      "/api/first-run",
      "/api/house",
      "/api/house/history",

      "/api/house/lists/{kind}",
      "/api/house/lists/{kind}/judgement",
      "/api/house/lives",
      "/api/house/settings",
      "/api/house/steps",
      "/api/inspections",
      "/api/inspections/{id}",
      "/api/inspections/{id}/changes",
      "/api/inspections/{id}/done",
      "/api/join/{code}",
      "/api/live",
      "/api/me",
      "/api/me/lapses",
      "/api/me/passkeys",
      "/api/me/passkeys/options",
      "/api/me/passkeys/{id}",
      "/api/me/pin",
      "/api/me/sign-ins",
      "/api/me/sign-ins/{id}",
      "/api/me/training",
      "/api/nonce",
      "/api/people",
      "/api/people/dates",
      "/api/people/everybody",
      "/api/people/lapses",
      "/api/people/{id}",
      "/api/people/{id}/active",
      "/api/people/{id}/dates",
      "/api/people/{id}/pin",
      "/api/people/{id}/training",
      "/api/rehearsals",
      "/api/rehearsals/house-scripts",
      "/api/rehearsals/house-scripts/{id}",
      "/api/rehearsals/scripts",
      "/api/rehearsals/{id}",
      "/api/rehearsals/{id}/back",
      "/api/rehearsals/{id}/compared",
      "/api/rehearsals/{id}/desk",
      "/api/rehearsals/{id}/hands",
      "/api/rehearsals/{id}/world",
      "/api/search",
      "/api/service-accounts",
      "/api/service-accounts/{id}/revocation",
      "/api/sessions",
      "/api/sessions/{id}",
      "/api/sessions/{id}/brief.pdf",
      "/api/sessions/{id}/checkpoint",
      "/api/sessions/{id}/events",
      "/api/sessions/{id}/evidence",
      "/api/sessions/{id}/noise",
      "/api/sessions/{id}/proofs/consistency",
      "/api/sessions/{id}/proofs/inclusion",
      "/api/sessions/{id}/record.pdf",
      "/api/sign-in",
      "/api/sign-in/passkey",
      "/api/sign-in/passkey/options",
      "/api/sign-out",
      "/api/standing",
      "/api/types",
      "/api/types/import",
      "/api/types/schema",
      "/api/types/validate",
      "/api/types/{id}/drafts",
      "/api/types/{id}/{version}",
      "/api/types/{id}/{version}/approval",
      "/api/types/{id}/{version}/export",
      "/api/weather",
      "/api/webhooks",
      "/api/webhooks/again",
      "/api/webhooks/given-up",
      "/health/live",
      "/health/ready",
      "/metrics",
    ]);
    for (const [path, methods] of Object.entries<Record<string, { summary: string; responses: object }>>(
      paths,
    ))
      for (const [method, { summary, responses }] of Object.entries(methods)) {
        expect(summary, `${method} ${path}`).toBeTruthy();
        expect(Object.keys(responses), `${method} ${path}`).not.toEqual([]);
      }
    expect(paths["/api/sign-in"].post.requestBody.content["application/json"].schema.required).toEqual([
      "handle",
      "pin",
    ]);
  });

  it("[SRV-22] describes the problems of a route by status, with one schema for all", async () => {
    const { paths, components } = (await get("/docs/json")).json();
    const { responses } = paths["/api/types/{id}/{version}/approval"].post;
    expect(Object.keys(responses)).toEqual([
      "200",
      "400",
      "401",
      "403",
      "404",
      "409",
      "412",
      "413",
      "415",
      "421",
      "422",
      "428",
      "429",
      "500",
      "503",
    ]);
    expect(responses["412"].description).toBe("stale: Somebody changed it meanwhile");
    expect(responses["403"].description).toMatch(/^notQualified: .*; ownWork: .*; wrongPin: /);
    expect(responses["403"].content["application/problem+json"].schema.$ref).toBe(
      "#/components/schemas/Problem",
    );
    expect(components.schemas.Problem.required).toEqual(["type", "title", "status", "detail"]);
    const without = Object.entries(paths as Record<string, Record<string, { responses: object }>>).flatMap(
      ([path, methods]) =>
        Object.entries(methods).flatMap(([method, { responses: all }]) =>
          ["421", "500", "503"].every((status) => status in all) ? [] : [`${method} ${path}`],
        ),
    );
    expect(without).toEqual([]);
  });

  it("[SRV-11] has a page without inline script", async () => {
    const page = await get("/docs/");
    expect(page.statusCode).toBe(200);
    expect(String(page.headers["content-security-policy"])).toContain("script-src 'self';");
    expect(page.body).not.toMatch(/<script>/);
  });
});

describe("health", () => {
  it("[SRV-12] is live while the process answers, ready while events can be recorded", async () => {
    expect((await get("/health/live")).json()).toEqual({ ok: true });
    expect((await get("/health/ready")).json()).toEqual({ ok: true });
    const store = new MemoryEventStore();
    const broken = await testServer({ store });
    store.probe = () => Promise.reject(new StoreFailure("disk full"));
    const reply = await broken.app.inject({ url: "/health/ready" });
    expect((await broken.app.inject({ url: "/health/live" })).statusCode).toBe(200);
    await broken.close();
    expect(reply.statusCode).toBe(503);
    expect(reply.json().type).toBe("urn:chockside:problem:notAvailable");
    expect(reply.json().detail).toContain("hand signals");
  });
});

describe("errors of the server's own", () => {
  it("[SRV-1] are logged in full and answered in general terms", async () => {
    const said: string[] = [];
    const lines = new Writable({
      write(chunk, _encoding, done) {
        said.push(String(chunk));
        done();
      },
    });
    const app = await createApp(test.services, {
      logger: pino({ ...LOG_OPTIONS, level: "info" }, lines),
      site: folder,
      perMinute: { signIns: 100, address: 100_000, signIn: 100_000, costly: 100_000 },
      proxies: [],
      live: { origins: [] },
      tls: null,
    });
    const token = await signIn(app, "ada");
    const { directory } = test.services;
    const people = directory.people;
    directory.people = () => Promise.reject(new Error("secret inside"));
    const reply = await app.inject({ url: "/api/people", headers: bearer(token) });
    directory.people = people;
    await app.close();
    expect(reply.statusCode).toBe(500);
    expect(reply.json().type).toBe("urn:chockside:problem:internal");
    expect(reply.body).not.toContain("secret inside");
    expect(said.join("")).toContain("secret inside");
    // No line contains the token or the PIN it came from.
    expect(said.join("")).not.toContain(token);
    expect(said.join("")).not.toContain(PIN);
  });

  it("[SRV-15] keep tokens and PINs out of the log even where one is logged by mistake", () => {
    const said: string[] = [];
    const lines = { write: (line: string) => said.push(line) };
    const log = pino({ ...LOG_OPTIONS, level: "info" }, lines);
    const secret = "s3cret-s3cret";
    log.info({ token: secret, pin: secret, body: { pin: secret, token: secret }, auth: { token: secret } });
    log.info({ req: { headers: { authorization: `Bearer ${secret}`, cookie: secret } } });
    expect(said).toHaveLength(2);
    expect(said.join("")).not.toContain(secret);
  });
});
