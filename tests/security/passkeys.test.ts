import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { TestDevice } from "../http/device-key.ts";
import { bearer, PIN, signIn, type TestServer, testServer } from "../http/test-server.ts";
import { Authenticator, type Over } from "./authenticator.ts";

const ORIGIN = "http://localhost";

let server: TestServer;
let device: TestDevice;
let ada: string;
let key: Authenticator;
beforeEach(async () => {
  server = await testServer({ origins: [ORIGIN] });
  const di = await signIn(server.app, "di");
  const url = "/api/devices/codes";
  const asked = await server.app.inject({
    method: "POST",
    url,
    headers: bearer(di),
    payload: { name: "T1" },
  });
  device = await TestDevice.make();
  await device.enrol(server.app, asked.json().code);
  ada = await device.signIn(server.app, "ada", PIN);
  key = new Authenticator(ORIGIN);
});
afterEach(() => server.close());

const post = (url: string, payload?: object, token?: string, on = device) =>
  on.send(server.app, "POST", `/api${url}`, { ...(payload ? { payload } : {}), ...(token ? { token } : {}) });
const addOptions = async () => (await post("/me/passkeys/options", { pin: PIN }, ada)).json();
const add = async (over: Over = {}) =>
  (await post("/me/passkeys", key.create(await addOptions(), over), ada)).statusCode;
const getOptions = async () => (await post("/sign-in/passkey/options")).json();
const enter = async (over: Over = {}, on = device) =>
  post("/sign-in/passkey", key.get(await getOptions(), over), undefined, on);
const owned = async () =>
  (await device.send(server.app, "GET", "/api/me/passkeys", { token: ada })).json() as { id: string }[];

/** The false part of each answer. Each is an attack that must be found. */
const FORGED: [string, Over][] = [
  ["another site's", { origin: "https://evil.example" }],
  ["another site's name hashed in", { rpId: "evil.example" }],
  ["a challenge of nobody's", { challenge: Buffer.alloc(40, 7).toString("base64url") }],
  ["nobody verified", { flags: 1 }],
  ["nobody there", { flags: 4 }],
  ["one of the other kind", { type: "webauthn.none" }],
];

describe("a passkey", () => {
  it("[AUT-13] is made on an enrolled device by the PIN, and then signs its person in without one", async () => {
    expect(await add()).toBe(204);
    const options = await getOptions();
    expect(options).toMatchObject({ rpId: "localhost", userVerification: "required" });
    expect(options.allowCredentials ?? []).toEqual([]);
    const reply = await enter();
    expect(reply.statusCode).toBe(200);
    const { token, person } = reply.json();
    expect(person.id).toBe("ada");
    const me = await device.send(server.app, "GET", "/api/me", { token });
    expect(me.json()).toMatchObject({ person: { id: "ada" }, device: { name: "T1" } });
    // The token is bound to the device like any other.
    const stolen = { authorization: `DPoP ${token}` };
    expect((await server.app.inject({ url: "/api/me", headers: stolen })).statusCode).toBe(401);
    expect((await enter()).statusCode).toBe(200);
  });

  it("[AUT-13] is not made without the PIN, nor on a device that is not enrolled, nor by an answer to something else", async () => {
    expect((await post("/me/passkeys/options", { pin: "000000" }, ada)).statusCode).toBe(403);
    const bo = await signIn(server.app, "bo");
    const url = "/api/me/passkeys/options";
    const payload = { pin: PIN };
    const there = await server.app.inject({ method: "POST", url, headers: bearer(bo), payload });
    expect([there.statusCode, there.json().type]).toEqual([403, "urn:chockside:problem:deviceNeeded"]);
    for (const [, over] of FORGED) expect([over, await add(over)]).toEqual([over, 403]);
    // A challenge that anybody can get is not one that followed a PIN.
    const { challenge } = await getOptions();
    expect(await add({ challenge })).toBe(403);
    const options = await addOptions();
    await server.hand.leap(60_000);
    expect((await post("/me/passkeys", key.create(options), ada)).statusCode).toBe(403);
    expect(await owned()).toEqual([]);
    const once = await addOptions();
    expect((await post("/me/passkeys", key.create(once), ada)).statusCode).toBe(204);
    expect((await post("/me/passkeys", key.create(once), ada)).statusCode).toBe(403);
    expect(await owned()).toHaveLength(1);
  });

  it.each(FORGED)("[AUT-14] signs nobody in with %s", async (_what, over) => {
    await add();
    const reply = await enter(over);
    expect([reply.statusCode, reply.json().type]).toEqual([403, "urn:chockside:problem:wrongPasskey"]);
    expect((await enter()).statusCode).toBe(200);
  });

  it("[AUT-14] signs nobody in by a repeated or old answer, a copy with a lower counter, or another's name", async () => {
    await add();
    const options = await getOptions();
    const answer = key.get(options);
    expect((await post("/sign-in/passkey", answer)).statusCode).toBe(200);
    expect((await post("/sign-in/passkey", answer)).statusCode).toBe(403);
    expect((await post("/sign-in/passkey", key.get(options))).statusCode).toBe(403);
    expect((await enter({ counter: 1 })).statusCode).toBe(403);
    expect((await enter({ userHandle: Buffer.from("bo").toString("base64url") })).statusCode).toBe(403);
    const late = await getOptions();
    await server.hand.leap(5 * 60_000);
    expect((await post("/sign-in/passkey", key.get(late))).statusCode).toBe(403);
    const spoilt = key.get(await getOptions());
    spoilt.response.signature = key.get(await getOptions()).response.signature;
    expect((await post("/sign-in/passkey", spoilt)).statusCode).toBe(403);
    expect((await enter()).statusCode).toBe(200);
  });

  it("[AUT-14] [DEV-3] is worth nothing elsewhere: on a device that is not enrolled or is no more, or for who may not sign in", async () => {
    await add();
    const unknown = await TestDevice.make();
    expect((await enter({}, unknown)).statusCode).toBe(403);
    const answer = key.get(await getOptions());
    const url = "/api/sign-in/passkey";
    expect((await server.app.inject({ method: "POST", url, payload: answer })).statusCode).toBe(401);
    await server.services.directory.setActive("ada", false);
    expect((await enter()).statusCode).toBe(403);
    await server.services.directory.setActive("ada", true);
    expect((await enter()).statusCode).toBe(200);
  });

  it("[AUT-13] is listed without its key, and only its person can remove it", async () => {
    await add();
    const [mine] = await owned();
    expect(Object.keys(mine ?? {}).sort()).toEqual(["createdAt", "deviceName", "id", "usedAt"]);
    const remove = (token: string) =>
      server.app.inject({ method: "DELETE", url: `/api/me/passkeys/${mine?.id}`, headers: bearer(token) });
    expect((await remove(await signIn(server.app, "bo"))).statusCode).toBe(404);
    const own = await signIn(server.app, "ada", "other");
    expect((await remove(own)).statusCode).toBe(204);
    expect((await enter()).statusCode).toBe(403);
    expect(await owned()).toEqual([]);
  });

  it("[AUT-13] is not offered by a server that does not know its own address", async () => {
    const plain = await testServer();
    const reply = await plain.app.inject({ method: "POST", url: "/api/sign-in/passkey/options" });
    await plain.close();
    expect([reply.statusCode, reply.json().type]).toEqual([404, "urn:chockside:problem:noPasskeys"]);
    expect(reply.json().detail).toContain("sign in by PIN");
  });
});
