import { verify } from "@node-rs/argon2";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { waitAfter } from "../../server/auth/lockout.ts";
import { hashPin, isPin } from "../../server/auth/pin.ts";
import { MemoryEventStore } from "../../server/store/memory-events.ts";
import { bearer, crewDirectory, PIN, signIn, type TestServer, testServer } from "./test-server.ts";

vi.mock("@node-rs/argon2", async (original) => {
  const real = await original<typeof import("@node-rs/argon2")>();
  return { ...real, verify: vi.fn(real.verify) };
});

const SECOND = 1_000;
const MINUTE = 60 * SECOND;
const HOUR = 60 * MINUTE;

let test: TestServer;
beforeEach(async () => {
  test = await testServer();
});
afterEach(() => test.close());

const attempt = (handle: string, pin: string, device = "d1") =>
  test.app.inject({
    method: "POST",
    url: "/api/sign-in",
    payload: { handle, pin, device: { id: device, name: "Tablet" } },
  });
const me = (token: string) => test.app.inject({ url: "/api/me", headers: bearer(token) });
const problemOf = (reply: { json(): { type: string; detail: string } }) =>
  reply.json().type.split(":").at(-1);

describe("signing in", () => {
  it("[AUT-1] gives a token of 256 bits that says who it is, on which device, and ends after 12 hours", async () => {
    const reply = await attempt("ada", PIN, "tablet-7");
    expect(reply.statusCode).toBe(200);
    expect(reply.json()).toMatchObject({
      expiresAt: test.hand.clock.now() + 12 * HOUR,
      person: { id: "ada", name: "Ada", handle: "ada", mayHold: ["cockpit"], demo: false },
    });
    const { token } = reply.json();
    expect(Buffer.from(token, "base64url")).toHaveLength(32);
    expect((await me(token)).json()).toEqual({
      person: { id: "ada", name: "Ada", handle: "ada", mayHold: ["cockpit"], demo: false },
      device: { id: "tablet-7", name: "Tablet" },
      pinLength: 6,
    });
  });

  it("[AUT-1] takes a handle whatever its case, with spaces around it", async () => {
    expect((await attempt(" ADA ", PIN)).statusCode).toBe(200);
  });

  it("[AUT-1] gives another token each time, and keeps none of them", async () => {
    const directory = await crewDirectory();
    const kept: string[] = [];
    const add = directory.addSignIn.bind(directory);
    directory.addSignIn = (record) => {
      kept.push(JSON.stringify(record));
      return add(record);
    };
    const other = await testServer({ directory });
    const tokens = [await signIn(other.app, "ada"), await signIn(other.app, "ada")];
    await other.close();
    expect(new Set(tokens).size).toBe(2);
    expect(kept).toHaveLength(2);
    for (const token of tokens) expect(kept.join()).not.toContain(token);
  });

  it("[AUT-1] hashes PINs with argon2id at the cost OWASP gives first", async () => {
    const hash = await hashPin(PIN);
    expect(hash).toMatch(/^\$argon2id\$v=19\$m=19456,t=2,p=1\$/);
    expect([await isPin(hash, PIN), await isPin(hash, "271829")]).toEqual([true, false]);
  });

  it("[AUT-3] answers alike to a wrong PIN, an unknown handle and a person no longer active", async () => {
    const replies = [
      await attempt("ada", "999999", "d1"),
      await attempt("nobody", PIN, "d2"),
      await attempt("gone", PIN, "d3"),
    ];
    for (const reply of replies) expect(reply.statusCode).toBe(401);
    expect(new Set(replies.map((r) => r.body)).size).toBe(1);
    expect(problemOf(replies[0] as never)).toBe("wrongSignIn");
  });

  it("[AUT-3] works as hard for an unknown handle as for a known one: one hash at the same cost", async () => {
    const costs: (string | undefined)[] = [];
    for (const handle of ["ada", "nobody", "gone"]) {
      vi.mocked(verify).mockClear();
      await attempt(handle, "999999", `device-of-${handle}`);
      expect(verify).toHaveBeenCalledTimes(1);
      const [hash] = vi.mocked(verify).mock.calls[0] ?? [];
      costs.push(String(hash).split("$").slice(0, 4).join("$"));
    }
    expect(new Set(costs)).toEqual(new Set(["$argon2id$v=19$m=8,t=1,p=1"]));
  });

  it.each([
    ["no body", undefined, "body"],
    ["no PIN", { handle: "ada", device: { id: "d", name: "T" } }, "body.pin"],
    ["a short PIN", { handle: "ada", pin: "123", device: { id: "d", name: "T" } }, "body.pin"],
    [
      "a handle that is no identifier",
      { handle: "a b", pin: PIN, device: { id: "d", name: "T" } },
      "body.handle",
    ],
    ["a device without a name", { handle: "ada", pin: PIN, device: { id: "d" } }, "body.device.name"],
    [
      "control characters",
      { handle: "ada", pin: PIN, device: { id: "d", name: "T\u0007" } },
      "body.device.name",
    ],
    ["an unknown field", { handle: "ada", pin: PIN, device: { id: "d", name: "T" }, admin: true }, "body"],
  ])("[SRV-2] refuses %s and says where", async (_what, payload, path) => {
    const reply = await test.app.inject({
      method: "POST",
      url: "/api/sign-in",
      ...(payload === undefined ? {} : { payload }),
    });
    expect(reply.statusCode).toBe(400);
    expect(reply.headers["content-type"]).toMatch(/^application\/problem\+json/);
    expect(reply.json()).toMatchObject({ type: "urn:chockside:problem:malformed", status: 400 });
    expect(reply.json().detail).toContain(path);
  });
});

describe("wrong PINs", () => {
  it("[AUT-2] lock from the fifth on: 30 s, doubling, 15 min at most", () => {
    expect([1, 4, 5, 6, 7, 8, 9, 10, 11, 40].map((n) => waitAfter(n) / SECOND)).toEqual([
      0, 0, 30, 60, 120, 240, 480, 900, 900, 900,
    ]);
  });

  const fail = async (times: number, handle = "ada", device = "d1") => {
    for (let i = 0; i < times; i += 1) await attempt(handle, "000000", device);
  };

  it("[AUT-2] lock the person, from any device, until the wait is over and not a millisecond less", async () => {
    await fail(5);
    const locked = await attempt("ada", PIN, "another");
    expect(locked.statusCode).toBe(429);
    expect(problemOf(locked)).toBe("locked");
    expect(locked.headers["retry-after"]).toBe("30");
    await test.hand.leap(30 * SECOND - 1);
    expect((await attempt("ada", PIN, "another")).statusCode).toBe(429);
    await test.hand.pass(1);
    expect((await attempt("ada", PIN, "another")).statusCode).toBe(200);
  });

  it("[AUT-2] lock the device, for anybody", async () => {
    for (const handle of ["ada", "bo", "cy", "di", "ed"]) await fail(1, handle, "shared");
    expect((await attempt("fay", PIN, "shared")).statusCode).toBe(429);
    expect((await attempt("fay", PIN, "own")).statusCode).toBe(200);
  });

  it("[AUT-2] wait longer each time; an attempt while locked counts for nothing", async () => {
    await fail(5);
    await fail(20);
    await test.hand.leap(30 * SECOND);
    await fail(1);
    await test.hand.leap(59 * SECOND);
    expect((await attempt("ada", PIN)).headers["retry-after"]).toBe("1");
    await test.hand.pass(SECOND);
    expect((await attempt("ada", PIN)).statusCode).toBe(200);
  });

  it("[AUT-2] are forgotten by a right one, and after a day", async () => {
    await fail(4);
    expect((await attempt("ada", PIN)).statusCode).toBe(200);
    await fail(4);
    expect((await attempt("ada", PIN)).statusCode).toBe(200);
    await fail(4);
    await test.hand.leap(24 * HOUR);
    await fail(4);
    expect((await attempt("ada", PIN)).statusCode).toBe(200);
  });

  it("[AUT-2] count one by one even when a hundred come at once", async () => {
    const replies = await Promise.all(Array.from({ length: 100 }, () => attempt("ada", "000000")));
    const codes = replies.map((r) => r.statusCode);
    expect(codes.filter((c) => c === 401)).toHaveLength(5);
    expect(codes.filter((c) => c === 429)).toHaveLength(95);
  });

  it("[AUT-2] are never counted for right ones, however many come at once", async () => {
    const replies = await Promise.all(Array.from({ length: 20 }, (_, n) => attempt("ada", PIN, `d${n}`)));
    expect(new Set(replies.map((r) => r.statusCode))).toEqual(new Set([200]));
  });

  it("[AUT-3] lock a handle nobody has, just like one somebody has", async () => {
    await fail(5, "nobody");
    expect((await attempt("nobody", PIN, "d9")).statusCode).toBe(429);
  });

  it("[AUT-2] are remembered across a restart", async () => {
    const directory = await crewDirectory();
    const first = await testServer({ directory });
    for (let i = 0; i < 5; i += 1)
      await first.app.inject({
        method: "POST",
        url: "/api/sign-in",
        payload: { handle: "ada", pin: "000000", device: { id: "d1", name: "T" } },
      });
    await first.close();
    const second = await testServer({ directory });
    await expect(signIn(second.app, "ada")).rejects.toThrow("Locked");
    await second.close();
  });

  it("[AUT-6] from one address are limited by their number", async () => {
    const narrow = await testServer({ perMinute: { signIns: 3 } });
    const one = (n: number) =>
      narrow.app.inject({
        method: "POST",
        url: "/api/sign-in",
        payload: { handle: `who${n}`, pin: PIN, device: { id: `d${n}`, name: "T" } },
      });
    const replies = [await one(1), await one(2), await one(3), await one(4)];
    await narrow.close();
    expect(replies.map((r) => r.statusCode)).toEqual([401, 401, 401, 429]);
    const last = replies[3];
    expect(last?.headers["content-type"]).toMatch(/^application\/problem\+json/);
    expect(last?.json()).toMatchObject({ type: "urn:chockside:problem:tooMany" });
    expect(Number(last?.headers["retry-after"])).toBeGreaterThan(0);
  });
});

describe("the end of a sign-in", () => {
  it("[AUT-4] comes at once with signing out", async () => {
    const token = await signIn(test.app, "ada");
    const out = await test.app.inject({ method: "POST", url: "/api/sign-out", headers: bearer(token) });
    expect([out.statusCode, out.body]).toEqual([204, ""]);
    const reply = await me(token);
    expect(reply.statusCode).toBe(401);
    expect(problemOf(reply)).toBe("signInNeeded");
  });

  it("[AUT-4] comes by itself after 12 hours, to the millisecond", async () => {
    const token = await signIn(test.app, "ada");
    await test.hand.leap(12 * HOUR - 1);
    expect((await me(token)).statusCode).toBe(200);
    await test.hand.pass(1);
    expect((await me(token)).statusCode).toBe(401);
  });

  it("[AUT-4] comes within seconds when another process ends it", async () => {
    const directory = await crewDirectory();
    const other = await testServer({ directory });
    const token = await signIn(other.app, "ada");
    const ask = async () => (await other.app.inject({ url: "/api/me", headers: bearer(token) })).statusCode;
    expect(await ask()).toBe(200);
    const who = await other.services.signIns.who(token);
    await directory.revokeSignIn(who?.signIn ?? "", other.hand.clock.now());
    await other.hand.pass(5 * SECOND);
    expect(await ask()).toBe(401);
    await other.close();
  });

  it("[AUT-4] leaves the person's other sign-ins as they are", async () => {
    const [one, two] = [await signIn(test.app, "ada", "d1"), await signIn(test.app, "ada", "d2")];
    await test.app.inject({ method: "POST", url: "/api/sign-out", headers: bearer(one) });
    expect((await me(two)).statusCode).toBe(200);
  });
});

describe("who may come in without a sign-in", () => {
  it.each([
    ["POST", "/api/sign-out"],
    ["GET", "/api/me"],
    ["GET", "/api/people"],
    ["GET", "/api/aircraft"],
    ["GET", "/api/types"],
    ["GET", "/api/types/four/1"],
    ["GET", "/api/sessions"],
    ["POST", "/api/sessions"],
    ["GET", "/api/sessions/x"],
    ["GET", "/api/sessions/x/events"],
    ["GET", "/api/sessions/x/evidence"],
    ["GET", "/api/join/ACDEFG"],
  ] as const)("[SRV-3] nobody at %s %s", async (method, url) => {
    const headers = [
      {},
      { authorization: "Bearer" },
      bearer("short"),
      bearer("A".repeat(43)),
      { authorization: `Basic ${"A".repeat(43)}` },
    ];
    for (const h of headers) {
      const reply = await test.app.inject({ method, url, headers: h });
      expect(reply.statusCode, JSON.stringify(h)).toBe(401);
      expect(problemOf(reply)).toBe("signInNeeded");
    }
  });
});

describe("the demo", () => {
  const demo = (app: TestServer["app"]) => app.inject({ url: "/api/demo" });

  it("[AUT-5] shows its sign-ins only while it is on and its people are there", async () => {
    expect((await demo(test.app)).json()).toEqual({ demo: false, crews: false, signIns: [] });
    const on = await testServer({ demo: true });
    expect((await demo(on.app)).json()).toEqual({
      demo: true,
      crews: false,
      signIns: [{ handle: "dot", pin: PIN, name: "Dot", mayHold: ["cockpit"] }],
    });
    await on.close();
  });

  it("[AUT-5] lets its people in only while it is on", async () => {
    expect((await attempt("dot", PIN)).statusCode).toBe(401);
    const directory = await crewDirectory();
    const on = await testServer({ demo: true, directory });
    const token = await signIn(on.app, "dot");
    await on.close();
    const off = await testServer({ directory, store: new MemoryEventStore() });
    expect((await off.app.inject({ url: "/api/me", headers: bearer(token) })).statusCode).toBe(401);
    await off.close();
  });
});
