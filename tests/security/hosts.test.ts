import { request } from "node:http";
import { hostname } from "node:os";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { hostAllowed } from "../../server/hosts.ts";
import { PROTOCOL } from "../../shared/protocol/version.ts";
import { signIn } from "../http/test-server.ts";
import { type LiveServer, liveServer, TestPanel } from "../live/panel.ts";

const ALLOWED = "https://ramp.example";

let server: LiveServer;
beforeAll(async () => {
  server = await liveServer({ origins: [ALLOWED] });
});
afterAll(() => server.close());

const ask = (headers: Record<string, string>, method = "GET", path = "/health/live", body = "") =>
  new Promise<{ status: number; headers: Record<string, unknown> }>((resolve, reject) => {
    const asked = request(server.url + path, { method, headers }, (reply) => {
      reply.resume();
      resolve({ status: reply.statusCode ?? 0, headers: reply.headers });
    });
    asked.on("error", reject).end(body);
  });

describe("the name a request was sent to", () => {
  it.each([
    ["127.0.0.1:4380", true],
    ["[::1]:4380", true],
    ["10.0.0.5", true],
    ["localhost:80", true],
    ["ramp-box", true],
    [`${hostname().split(".")[0]}.local:4380`, true],
    ["evil.local", false],
    ["ramp-box.local:4380", false],
    ["ramp.example", true],
    ["ramp.example:444", true],
    ["evil.example", false],
    ["ramp.example.evil.example", false],
    ["127.0.0.1.evil.example", false],
    ["localhost.evil.example", false],
    ["user@localhost", false],
    ["localhost/evil", false],
    ["", false],
    [undefined, false],
  ])("[SEC-3] %s: %s", (host, may) => {
    expect(hostAllowed(host, [ALLOWED])).toBe(may);
  });

  it("[SEC-3] must be this server's: a page whose own name was pointed here gets no answer", async () => {
    expect((await ask({ host: "ramp.example" })).status).toBe(200);
    for (const path of ["/", "/health/live", "/api/demo", "/docs/json", "/nowhere"]) {
      const { status, headers } = await ask({ host: "evil.example" }, "GET", path);
      expect([status, headers["x-content-type-options"]], path).toEqual([421, "nosniff"]);
    }
    const token = await signIn(server.app, "ada");
    const rebound = { origin: "http://evil.example", host: "evil.example" };
    const panel = await new TestPanel(server.url, { token, proto: PROTOCOL }, rebound).settled();
    expect(panel.socket.connected).toBe(false);
  });
});

describe("a page of another site", () => {
  it("[SEC-9] finds no cookie to use and no permission to read, and can send no form", async () => {
    const from = { origin: "https://evil.example", "sec-fetch-site": "cross-site" };
    const token = await signIn(server.app, "ada");
    for (const [method, path] of [
      ["GET", "/"],
      ["GET", "/api/demo"],
      ["GET", "/api/nonce"],
      ["GET", "/api/me"],
      ["OPTIONS", "/api/sign-in"],
    ] as const) {
      const { headers } = await ask({ ...from, authorization: `Bearer ${token}` }, method, path);
      expect(headers["set-cookie"], path).toBeUndefined();
      expect(
        Object.keys(headers).filter((h) => h.startsWith("access-control-")),
        path,
      ).toEqual([]);
    }
    // Answers outside Fastify, where sockets are opened, are no page either.
    const { status, headers } = await ask(from, "GET", "/live/?EIO=4&transport=polling");
    expect([status, headers["x-content-type-options"]]).toEqual([400, "nosniff"]);
    expect(headers["content-security-policy"]).toContain("frame-ancestors 'none'");
    const body = JSON.stringify({ handle: "ada", pin: "271828", device: { id: "d", name: "T" } });
    for (const type of ["text/plain", "application/x-www-form-urlencoded", "multipart/form-data; boundary=x"])
      expect((await ask({ ...from, "content-type": type }, "POST", "/api/sign-in", body)).status, type).toBe(
        415,
      );
  });
});
