import { afterEach, describe, expect, it } from "vitest";
import { LIMITS } from "../../server/live/limits.ts";
import { PROTOCOL } from "../../shared/protocol/version.ts";
import { bearer, planned, signIn, type TestOptions } from "../http/test-server.ts";
import { HOLD, type LiveServer, liveServer, TestPanel } from "../live/panel.ts";
import { openSocket } from "./unauthenticated-socket.ts";

const PROXY = "127.0.0.1";

let server: LiveServer;
afterEach(() => server.close());
const open = async (options: TestOptions) => {
  server = await liveServer(options);
};

const from = (remoteAddress: string, url = "/api/demo", headers: Record<string, string> = {}) =>
  server.app.inject({ url, remoteAddress, headers });
const statusOf = async (reply: ReturnType<typeof from>) => (await reply).statusCode;
const times = async (n: number, one: () => ReturnType<typeof from>) => {
  const codes: number[] = [];
  for (let i = 0; i < n; i += 1) codes.push(await statusOf(one()));
  return codes;
};
/** Uses up the allowance of an address, plus one request. */
const tire = (address: string, headers: Record<string, string> = {}) =>
  times(21, () => from(address, "/api/demo", headers));
const panelFrom = (token: string, forwarded?: string) =>
  new TestPanel(
    server.url,
    { token, proto: PROTOCOL },
    forwarded ? { "x-forwarded-for": forwarded } : {},
  ).settled();

describe("requests", () => {
  it("[SEC-14] under one sign-in are bounded from any address; another person's are not affected", async () => {
    await open({ perMinute: { signIn: 5 } });
    const [ada, bo] = [await signIn(server.app, "ada"), await signIn(server.app, "bo")];
    const ask = (token: string, address: string) => from(address, "/api/me", bearer(token));
    let n = 0;
    const codes = await times(7, () => {
      n += 1;
      return ask(ada, `10.0.0.${n}`);
    });
    expect(codes).toEqual([200, 200, 200, 200, 200, 429, 429]);
    const refused = await ask(ada, "10.0.0.99");
    expect(refused.headers["content-type"]).toMatch(/^application\/problem\+json/);
    expect(refused.json()).toMatchObject({ type: "urn:chockside:problem:tooMany" });
    const wait = Number(refused.headers["retry-after"]);
    expect(wait).toBeGreaterThan(50);
    expect(wait).toBeLessThanOrEqual(60);
    expect(await statusOf(ask(bo, "10.0.0.1"))).toBe(200);
  });

  it("[SEC-19] for whole records, on paper or signed, are bounded more narrowly than others", async () => {
    await open({ perMinute: { costly: 5 } });
    const [ada, bo] = [await signIn(server.app, "ada"), await signIn(server.app, "bo")];
    const { id } = await planned(server.app, await signIn(server.app, "fay"));
    const costly = ["evidence", "evidence?as=csv", "brief.pdf", "record.pdf", "checkpoint"];
    const proofs = ["proofs/inclusion?event=1&size=1", "proofs/consistency?from=1&to=1"];
    const of = (token: string, what: string) =>
      from("10.0.0.1", `/api/sessions/${id}/${what}`, bearer(token));
    const codes = async (token: string, all: readonly string[]) => {
      const found: number[] = [];
      for (const what of all) found.push(await statusOf(of(token, what)));
      return found;
    };
    expect(await codes(ada, costly)).toEqual([200, 200, 200, 200, 200]);
    expect(await codes(ada, [...costly, ...proofs])).toEqual(Array(7).fill(429));
    expect(await statusOf(from("10.0.0.1", "/api/card.pdf", bearer(ada)))).toBe(429);
    expect(await codes(ada, ["events", "events"])).toEqual([200, 200]);
    const judge = () =>
      server.app.inject({ method: "POST", url: "/api/types/validate", headers: bearer(ada), payload: {} });
    expect((await judge()).statusCode).toBe(429);
    expect(await codes(bo, [...proofs, "evidence"])).not.toContain(429);
  });

  it("[SEC-14] from one address are bounded, signed in or not, but never those that a stop needs", async () => {
    await open({ perMinute: { address: 20 } });
    const token = await signIn(server.app, "fay");
    const { id } = await planned(server.app, token);
    const codes = await tire("127.0.0.1");
    expect(codes.at(-1)).toBe(429);
    expect(await statusOf(from("127.0.0.1", "/api/none"))).toBe(429);
    expect(await statusOf(from("127.0.0.1", "/api/me", bearer(token)))).toBe(429);
    expect(await times(30, () => from("127.0.0.1", "/health/live"))).not.toContain(429);
    expect(await times(30, () => from("127.0.0.1", "/api/nonce"))).not.toContain(429);
    const panel = await panelFrom(token);
    expect(await panel.command(id, HOLD)).toMatchObject({ status: "accepted" });
    panel.close();
    expect(await statusOf(from("10.0.0.1"))).toBe(200);
  });

  it("[SEC-14] from addresses of one IPv6 network count together, because one host can use them all", async () => {
    await open({ perMinute: { address: 20 } });
    let n = 0;
    const codes = await times(21, () => {
      n += 1;
      return from(`2001:db8::${n.toString(16)}`);
    });
    expect(codes.at(-1)).toBe(429);
    expect(await statusOf(from("2001:db8:0:1::1"))).toBe(200);
  });
});

describe("a proxy", () => {
  it("[SEC-15] that was not configured is not trusted: a header that anybody can write makes no new address", async () => {
    await open({ perMinute: { address: 20 }, proxies: ["10.1.0.0/16"] });
    let n = 0;
    const codes = await times(21, () => {
      n += 1;
      return from("10.9.9.9", "/api/demo", { "x-forwarded-for": `192.0.2.${n}` });
    });
    expect(codes.at(-1)).toBe(429);
  });

  it("[SEC-15] that was configured names the client that connected to it, and no address that the client wrote", async () => {
    await open({ perMinute: { address: 20 }, proxies: ["10.1.0.0/16"] });
    let n = 0;
    const codes = await times(21, () => {
      n += 1;
      return from("10.1.0.7", "/api/demo", { "x-forwarded-for": `203.0.113.${n}, 192.0.2.1` });
    });
    expect(codes.at(-1)).toBe(429);
    expect(await statusOf(from("10.1.0.7", "/api/demo", { "x-forwarded-for": "192.0.2.2" }))).toBe(200);
    expect(await statusOf(from("192.0.2.1"))).toBe(429);
  });

  it("[SEC-15] [SEC-5] counts as one address for sockets too unless it was configured", async () => {
    const rounds = [
      { proxies: [], others: false },
      { proxies: [PROXY], others: true },
    ];
    for (const { proxies, others } of rounds) {
      await open({ proxies });
      const token = await signIn(server.app, "ada");
      const many = Array.from({ length: LIMITS.unauthenticatedPerAddress }, () =>
        openSocket(server.url, "192.0.2.1"),
      );
      const sockets = await Promise.all(many);
      const same = await panelFrom(token, "192.0.2.1");
      const other = await panelFrom(token, "192.0.2.2");
      expect([same.socket.connected, other.socket.connected]).toEqual([false, others]);
      for (const socket of sockets) socket.destroy();
      other.close();
      if (!others) await server.close();
    }
  });
});
