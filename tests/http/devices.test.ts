import { randomBytes } from "node:crypto";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { CONSOLE, giveCode } from "../../server/auth/devices.ts";
import { Nonces } from "../../server/auth/nonces.ts";
import * as pin from "../../server/auth/pin.ts";
import { randomIds } from "../../server/ids.ts";
import { PROTOCOL } from "../../shared/protocol/version.ts";
import { HOLD, type LiveServer, liveServer, TestPanel } from "../live/panel.ts";
import { nonceOf, TestDevice } from "./device-key.ts";
import { HandClock } from "./hand-clock.ts";
import { bearer, PIN, planBody, signIn } from "./test-server.ts";

const MINUTE = 60_000;

let server: LiveServer;
/** An enrolled device of the supervisor, on which di is signed in. */
let office: TestDevice;
let di: string;
beforeEach(async () => {
  server = await liveServer({ devices: "enrolled", demo: true });
  office = await TestDevice.make();
  await office.enrol(server.app, await codeFromConsole());
  di = await office.signIn(server.app, "di", PIN);
});
afterEach(() => server.close());

async function codeFromConsole(name = "Tablet"): Promise<string> {
  const { directory } = server.services;
  return (await giveCode({ directory, clock: server.hand.clock, ids: randomIds }, CONSOLE, name)).code;
}
const problemOf = (reply: { json(): { type: string } }) => reply.json().type.split(":").at(-1);
const asOffice = (method: "GET" | "POST", url: string, payload?: object) =>
  office.send(server.app, method, url, { token: di, ...(payload ? { payload } : {}) });
const codeFor = async (name: string) =>
  (await asOffice("POST", "/api/devices/codes", { name })).json().code as string;

async function tabletOf(handle: string) {
  const device = await TestDevice.make();
  const id = await device.enrol(server.app, await codeFor(`${handle}'s`));
  return { device, id, token: await device.signIn(server.app, handle, PIN) };
}

async function socketOf({ device, token }: { device: TestDevice; token: string }, url = server.url) {
  const nonce = await nonceOf(server.app);
  const proof = await device.proof({ method: "GET", url: `${url}/live`, nonce, token });
  return new TestPanel(server.url, { token, proto: PROTOCOL, proof }).settled();
}

describe("a code", () => {
  it("[DEV-1] has at least 128 random bits", () => {
    const code = randomIds.enrolmentCode().replaceAll("-", "");
    const alphabet = new Set(
      Array.from({ length: 500 }, () => randomIds.enrolmentCode().replaceAll("-", "")).join(""),
    );
    expect(code.length * Math.log2(alphabet.size)).toBeGreaterThanOrEqual(128);
  });

  it("[DEV-1] lets one device in, once, however it is written", async () => {
    const code = await codeFor("Tablet 4");
    const [one, two] = [await TestDevice.make(), await TestDevice.make()];
    const typed = code.toLowerCase().replaceAll("-", " ");
    const reply = await one.send(server.app, "POST", "/api/devices", { payload: { code: typed } });
    expect([reply.statusCode, reply.json().name]).toEqual([201, "Tablet 4"]);
    const again = await two.send(server.app, "POST", "/api/devices", { payload: { code } });
    expect([again.statusCode, problemOf(again)]).toEqual([403, "codeWrong"]);
  });

  it("[DEV-1] is too old after five minutes, to the millisecond", async () => {
    const [early, late] = [await codeFor("Early"), await codeFor("Late")];
    const [one, two] = [await TestDevice.make(), await TestDevice.make()];
    await server.hand.pass(5 * MINUTE - 1);
    await one.enrol(server.app, early);
    await server.hand.pass(1);
    await expect(two.enrol(server.app, late)).rejects.toThrow("codeWrong");
  });

  it("[DEV-1] is given only to supervisors", async () => {
    const bo = await tabletOf("bo");
    for (const [method, url, payload] of [
      ["POST", "/api/devices/codes", { name: "Mine" }],
      ["GET", "/api/devices", undefined],
      ["POST", `/api/devices/${bo.id}/revocation`, undefined],
    ] as const) {
      const reply = await bo.device.send(server.app, method, url, {
        token: bo.token,
        ...(payload ? { payload } : {}),
      });
      expect([url, reply.statusCode, problemOf(reply)]).toEqual([url, 403, "notQualified"]);
    }
  });

  it("[DEV-2] enrols only a key that proves itself, the public half of which alone is kept", async () => {
    const code = await codeFor("Tablet");
    const bare = await server.app.inject({ method: "POST", url: "/api/devices", payload: { code } });
    expect([bare.statusCode, problemOf(bare)]).toEqual([401, "proofNeeded"]);
    const device = await TestDevice.make();
    const kept = await server.services.directory.devices.one(await device.enrol(server.app, code));
    const { kty, crv, x, y } = device.jwk;
    expect(JSON.parse(kept?.publicKey ?? "")).toEqual({ kty, crv, x, y });
  });
});

describe("signing in where devices must be enrolled", () => {
  it("[DEV-3] tries no PIN from another device, and answers alike whoever it is", async () => {
    const tried = vi.spyOn(server.services.directory, "lockout");
    const hashed = vi.spyOn(pin, "isPin");
    const bodies = new Set<string>();
    for (const [handle, p] of [
      ["ada", PIN],
      ["ada", "000000"],
      ["nobody", PIN],
      ["gone", PIN],
      ["dot", PIN],
    ]) {
      const payload = { handle, pin: p, device: { id: "mine", name: "Mine" } };
      const reply = await server.app.inject({ method: "POST", url: "/api/sign-in", payload });
      expect([handle, reply.statusCode]).toEqual([handle, 403]);
      bodies.add(reply.body);
    }
    expect(bodies.size).toBe(1);
    expect(tried).not.toHaveBeenCalled();
    expect(hashed).not.toHaveBeenCalled();
  });

  it("[DEV-3] takes a key nobody enrolled for no device, and a revoked one for none any more", async () => {
    const stranger = await TestDevice.make();
    await expect(stranger.signIn(server.app, "ada", PIN)).rejects.toThrow("deviceNeeded");
    const ada = await tabletOf("ada");
    await asOffice("POST", `/api/devices/${ada.id}/revocation`);
    await expect(ada.device.signIn(server.app, "ada", PIN)).rejects.toThrow("deviceNeeded");
  });

  it("[DEV-3] lets the demo's people in from any device by itself, and nobody else; never under an enrolled one's name", async () => {
    const own = await liveServer({ devices: "auto", demo: true });
    await signIn(own.app, "dot", "anything");
    await expect(signIn(own.app, "ada", "anything")).rejects.toThrow("deviceNeeded");
    await own.services.directory.devices.add({
      id: "known",
      name: "Known",
      publicKey: "{}",
      thumbprint: "t",
      enrolledBy: "x",
      enrolledAt: 1,
      revokedBy: null,
      revokedAt: null,
    });
    await expect(signIn(own.app, "dot", "known")).rejects.toThrow("deviceNeeded");
    await own.close();
    const off = await liveServer({ devices: "auto" });
    await expect(signIn(off.app, "dot", "anything")).rejects.toThrow("deviceNeeded");
    await off.close();
  });
});

describe("a token of an enrolled device", () => {
  it("[DEV-4] is useless without the device's key, on HTTP and on a socket", async () => {
    const ada = await tabletOf("ada");
    const thief = await TestDevice.make();
    await thief.enrol(server.app, await codeFor("Thief's own"));
    expect((await ada.device.send(server.app, "GET", "/api/me", { token: ada.token })).statusCode).toBe(200);
    const plain = await server.app.inject({ url: "/api/me", headers: bearer(ada.token) });
    expect([plain.statusCode, problemOf(plain)]).toEqual([401, "proofNeeded"]);
    expect(plain.headers["dpop-nonce"]).toBeTruthy();
    expect((await thief.send(server.app, "GET", "/api/me", { token: ada.token })).statusCode).toBe(401);
    const mine = await socketOf(ada);
    expect(mine.socket.connected).toBe(true);
    for (const panel of [
      await new TestPanel(server.url, { token: ada.token, proto: PROTOCOL }).settled(),
      await socketOf({ device: thief, token: ada.token }),
    ]) {
      expect(panel.refusal?.data?.error).toBe("proofNeeded");
      panel.close();
    }
    mine.close();
  });

  it.each<
    [
      string,
      (d: TestDevice, of: { method: string; url: string; nonce: string; token: string }) => Promise<string>,
    ]
  >([
    ["another method", (d, of) => d.proof({ ...of, method: "POST" })],
    ["another address", (d, of) => d.proof({ ...of, url: "http://localhost:80/api/people" })],
    ["another host", (d, of) => d.proof({ ...of, url: "https://evil.example/api/me" })],
    ["another token", (d, of) => d.proof({ ...of, token: "B".repeat(43) })],
    ["no token", (d, { token: _, ...of }) => d.proof(of)],
    ["a nonce of its own", (d, of) => d.proof({ ...of, nonce: "A".repeat(43) })],
    ["another kind of word", (d, of) => d.proof(of, {}, { typ: "JWT" })],
    ["a key that is not its own", async (d, of) => d.proof(of, {}, { jwk: (await TestDevice.make()).jwk })],
    ["no signature", async (d, of) => (await d.proof(of)).replace(/\.[^.]*$/, ".")],
    [
      "alg none",
      async (d, of) => {
        const [, claims] = (await d.proof(of)).split(".");
        const header = Buffer.from(JSON.stringify({ typ: "dpop+jwt", alg: "none", jwk: d.jwk })).toString(
          "base64url",
        );
        return `${header}.${claims}.`;
      },
    ],
    ["an id too short to be of chance", (d, of) => d.proof(of, { jti: "1" })],
    ["garbage", async () => "a.b.c"],
  ])("[DEV-4] is refused with a proof for %s", async (_what, make) => {
    const of = {
      method: "GET",
      url: "http://localhost:80/api/me",
      nonce: await nonceOf(server.app),
      token: di,
    };
    const ask = (dpop: string) =>
      server.app.inject({ url: "/api/me", headers: { authorization: `DPoP ${di}`, dpop } });
    expect((await ask(await make(office, of))).statusCode).toBe(401);
    expect((await ask(await office.proof(of))).statusCode).toBe(200);
  });

  it("[DEV-4] is refused with a proof that was used, also long after, and with one whose nonce is too old", async () => {
    const of = { method: "GET", url: "http://localhost:80/api/me", token: di };
    const nonce = await nonceOf(server.app);
    const dpop = await office.proof({ ...of, nonce });
    const ask = (proof: string) =>
      server.app.inject({ url: "/api/me", headers: { authorization: `DPoP ${di}`, dpop: proof } });
    expect((await ask(dpop)).statusCode).toBe(200);
    for (let i = 0; i < 8; i += 1) {
      expect((await ask(dpop)).statusCode).toBe(401);
      await server.hand.pass(MINUTE);
    }
    const old = await ask(await office.proof({ ...of, nonce }));
    expect([old.statusCode, problemOf(old)]).toEqual([401, "proofNeeded"]);
    expect(
      (await ask(await office.proof({ ...of, nonce: String(old.headers["dpop-nonce"]) }))).statusCode,
    ).toBe(200);
  });

  it("[DEV-4] needs a nonce of ours: made under our secret, not changed, not older or newer than five minutes", () => {
    const hand = new HandClock();
    const secret = randomBytes(32);
    const [ours, same, other] = [secret, secret, randomBytes(32)].map((s) => new Nonces(s, hand.clock));
    const nonce = ours?.issue() ?? "";
    expect([ours?.isGood(nonce), same?.isGood(nonce), other?.isGood(nonce)]).toEqual([true, true, false]);
    const bytes = Buffer.from(nonce, "base64url");
    for (let i = 0; i < bytes.length; i += 1) {
      const changed = Buffer.from(bytes);
      changed.writeUInt8((bytes[i] ?? 0) ^ 1, i);
      expect(ours?.isGood(changed.toString("base64url")), `byte ${i}`).toBe(false);
    }
    expect([ours?.isGood(""), ours?.isGood("A")]).toEqual([false, false]);
  });
});

describe("the end of a device's or a person's leave", () => {
  it("[DEV-5] cuts its sockets and its sign-ins at once, and nobody else's", async () => {
    const [ada, bo] = [await tabletOf("ada"), await tabletOf("bo")];
    const [one, two] = [await socketOf(ada), await socketOf(bo)];
    await ada.device.send(server.app, "GET", "/api/me", { token: ada.token });
    const reply = await asOffice("POST", `/api/devices/${ada.id}/revocation`);
    expect(reply.statusCode).toBe(204);
    await one.cut();
    expect(one.byes.map((b) => b.why)).toEqual(["signedOut"]);
    const me = await ada.device.send(server.app, "GET", "/api/me", { token: ada.token });
    expect([me.statusCode, problemOf(me)]).toEqual([401, "signInNeeded"]);
    await two.exchange();
    expect((await bo.device.send(server.app, "GET", "/api/me", { token: bo.token })).statusCode).toBe(200);
    two.close();
  });

  it("[DEV-5] is listed, with the people who enrolled and revoked it", async () => {
    await server.hand.pass(1);
    const ada = await tabletOf("ada");
    await asOffice("POST", `/api/devices/${ada.id}/revocation`);
    const listed = (await asOffice("GET", "/api/devices")).json();
    expect(listed.map((d: Record<string, unknown>) => [d.name, d.enrolledBy, d.revokedBy])).toEqual([
      ["ada's", "Di", "Di"],
      ["Tablet", "console", null],
    ]);
    expect(JSON.stringify(listed)).not.toMatch(/thumbprint|publicKey/);
    expect((await asOffice("POST", "/api/devices/none/revocation")).statusCode).toBe(404);
  });

  it("[DEV-5] comes also between a right PIN and its answer", async () => {
    const ada = await tabletOf("ada");
    const { directory } = server.services;
    const add = directory.addSignIn.bind(directory);
    directory.addSignIn = async (record) => {
      await asOffice("POST", `/api/devices/${ada.id}/revocation`);
      return add(record);
    };
    await expect(ada.device.signIn(server.app, "ada", PIN)).rejects.toThrow("wrongSignIn");
  });

  it("[SEC-29] of a person who holds a post needs a reason and the PIN", async () => {
    const ada = await tabletOf("ada");
    const panel = await socketOf(ada);
    const { id } = (
      await ada.device.send(server.app, "POST", "/api/sessions", { token: ada.token, payload: planBody() })
    ).json();
    await panel.command(id, { type: "claimPost", post: "cockpit" });
    const cut = async (path: string, method: string, payload: Record<string, unknown>) => {
      const of = { method, url: `http://localhost:80${path}`, nonce: await nonceOf(server.app), token: di };
      const headers = { authorization: `DPoP ${di}`, dpop: await office.proof(of) };
      const reply = await server.app.inject({ method: method as "PUT", url: path, headers, payload });
      return [reply.statusCode, reply.statusCode === 204 ? null : problemOf(reply)];
    };
    for (const [path, method, body] of [
      ["/api/people/ada/active", "PUT", { active: false }],
      [`/api/devices/${ada.id}/revocation`, "POST", {}],
    ] as const) {
      expect(await cut(path, method, body)).toEqual([409, "onDuty"]);
      expect(await cut(path, method, { ...body, confirm: true })).toEqual([409, "onDuty"]);
      expect(await cut(path, method, { ...body, pin: PIN })).toEqual([409, "onDuty"]);
      expect(await cut(path, method, { ...body, confirm: true, pin: "314159" })).toEqual([403, "wrongPin"]);
      expect((await panel.command(id, HOLD)).status).toBe("accepted");
    }
    expect(await cut("/api/people/bo/active", "PUT", { active: false })).toEqual([204, null]);
    const sure = { active: false, confirm: true, pin: PIN };
    expect(await cut("/api/people/ada/active", "PUT", sure)).toEqual([204, null]);
    await panel.cut();
  });

  it("[DEV-6] cuts a person who may not sign in any more; another person does it", async () => {
    const ada = await tabletOf("ada");
    const panel = await socketOf(ada);
    const put = async (id: string, active: boolean) => {
      const url = `/api/people/${id}/active`;
      const of = {
        method: "PUT",
        url: `http://localhost:80${url}`,
        nonce: await nonceOf(server.app),
        token: di,
      };
      const headers = { authorization: `DPoP ${di}`, dpop: await office.proof(of) };
      return (await server.app.inject({ method: "PUT", url, headers, payload: { active } })).statusCode;
    };
    expect([await put("ada", false), await put("di", false), await put("none", false)]).toEqual([
      204, 403, 404,
    ]);
    await panel.cut();
    await expect(ada.device.signIn(server.app, "ada", PIN)).rejects.toThrow("wrongSignIn");
    expect(await put("ada", true)).toBe(204);
    await ada.device.signIn(server.app, "ada", PIN);
  });
});

describe("a sign-in nobody uses", () => {
  it("[AUT-7] ends after its time, on HTTP and on a socket, and lasts as long as it is used", async () => {
    const own = await liveServer({ idleMs: 30 * MINUTE });
    const [used, left] = [await signIn(own.app, "ada"), await signIn(own.app, "bo")];
    const panel = await new TestPanel(own.url, { token: left, proto: PROTOCOL }).settled();
    const me = async (token: string) =>
      (await own.app.inject({ url: "/api/me", headers: bearer(token) })).statusCode;
    for (let i = 0; i < 3; i += 1) {
      await own.hand.pass(10 * MINUTE - 1_000);
      expect(await me(used)).toBe(200);
    }
    expect(panel.socket.connected).toBe(true);
    await own.hand.pass(10_000);
    await panel.cut();
    expect([await me(used), await me(left)]).toEqual([200, 401]);
    await own.hand.pass(31 * MINUTE);
    expect(await me(used)).toBe(401);
    await own.close();
  });

  it("[AUT-7] is in use while its panel watches a start that is not over", async () => {
    const own = await liveServer({ idleMs: 30 * MINUTE });
    const token = await signIn(own.app, "ada");
    const plan = await own.app.inject({
      method: "POST",
      url: "/api/sessions",
      headers: bearer(token),
      payload: planBody(),
    });
    const panel = await new TestPanel(own.url, { token, proto: PROTOCOL }).settled();
    await panel.watch(plan.json().id);
    await own.hand.pass(61 * MINUTE);
    expect(panel.socket.connected).toBe(true);
    panel.close();
    await own.close();
  });
});
