import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { resetPin } from "../../server/auth/people.ts";
import { hashPin, isPin } from "../../server/auth/pin.ts";
import { PROTOCOL } from "../../shared/protocol/version.ts";
import { HOLD, type LiveServer, liveServer, panelOf, TestPanel } from "../live/panel.ts";
import { bearer, CHEAP, PIN, planned, signIn } from "./test-server.ts";

const NEXT = "907163";

let server: LiveServer;
beforeEach(async () => {
  server = await liveServer();
});
afterEach(() => server.close());

const ask = (token: string, method: "GET" | "POST" | "PUT" | "DELETE", path: string, payload?: object) =>
  server.app.inject({
    method,
    url: `/api${path}`,
    headers: bearer(token),
    ...(payload ? { payload } : {}),
  });
const code = async (reply: ReturnType<typeof ask>) => (await reply).statusCode;
const change = (token: string, pin: string, next: string) => ask(token, "POST", "/me/pin", { pin, next });
const enter = (pin: string) =>
  server.app.inject({
    method: "POST",
    url: "/api/sign-in",
    payload: { handle: "ada", pin, device: { id: "other", name: "T" } },
  });

describe("one's own PIN", () => {
  it("[AUT-10] is changed with the old one, is stored only as argon2id, and ends the person's other sign-ins at once", async () => {
    const { id } = await planned(server.app, await signIn(server.app, "fay"));
    const here = await signIn(server.app, "ada", "tablet-1");
    const there = await panelOf(server, "ada", "tablet-2");
    const bo = await signIn(server.app, "bo", "tablet-3");
    expect(await code(change(here, PIN, NEXT))).toBe(204);
    await there.cut();
    expect(there.byes).toMatchObject([{ why: "signedOut" }]);
    expect([await code(ask(here, "GET", "/me")), await code(ask(bo, "GET", "/me"))]).toEqual([200, 200]);
    expect([(await enter(PIN)).statusCode, (await enter(NEXT)).statusCode]).toEqual([401, 200]);
    const kept = (await server.services.directory.person("ada"))?.pinHash ?? "";
    expect(kept).toMatch(/^\$argon2id\$/);
    expect(await isPin(kept, NEXT)).toBe(true);
    const panel = await new TestPanel(server.url, { token: here, proto: PROTOCOL }).settled();
    expect(await panel.command(id, HOLD)).toMatchObject({ status: "accepted" });
    panel.close();
  });

  it("[AUT-10] [AUT-8] cannot become an easily guessed one, nor stay the same", async () => {
    const token = await signIn(server.app, "ada");
    for (const next of ["234567", "808080", "918273", "11111", "1".repeat(65)]) {
      const reply = await change(token, PIN, next);
      expect([next, reply.statusCode, reply.json().type]).toEqual([
        next,
        400,
        "urn:chockside:problem:malformed",
      ]);
      expect(reply.body).not.toContain(next);
    }
    expect((await enter(PIN)).statusCode).toBe(200);
    const codes = [await code(change(token, PIN, NEXT)), await code(change(token, NEXT, NEXT))];
    expect(codes).toEqual([204, 400]);
  });

  it("[AUT-8] [AUT-10] is as long as the settings require, which the panel is told", async () => {
    await server.close();
    server = await liveServer({ pinLength: 8 });
    const token = await signIn(server.app, "ada");
    expect((await ask(token, "GET", "/me")).json()).toMatchObject({ pinLength: 8 });
    const short = await change(token, PIN, "9071634");
    expect([short.statusCode, short.json().detail]).toEqual([
      400,
      expect.stringContaining("must be at least 8 characters"),
    ]);
    expect(await code(change(token, PIN, "90716348"))).toBe(204);
  });

  it("[AUT-10] [AUT-9] cannot be changed by a person who finds the panel open: wrong PINs count as at sign-in", async () => {
    const token = await signIn(server.app, "ada");
    const codes: number[] = [];
    for (let n = 0; n < 6; n += 1) codes.push(await code(change(token, "000000", NEXT)));
    expect(codes).toEqual([403, 403, 403, 403, 403, 429]);
    expect((await enter(PIN)).statusCode).toBe(429);
    await server.hand.leap(30_000);
    expect((await enter(PIN)).statusCode).toBe(200);
  });

  it("[AUT-15] is reset at the server's console when forgotten, and sign-ins by the old one end", async () => {
    const [ada, bo] = [await signIn(server.app, "ada"), await signIn(server.app, "bo")];
    await resetPin(server.services.directory, "ada", await hashPin(NEXT, CHEAP), server.hand.clock.now());
    // Another process made the change: the server reads it again within seconds.
    await server.hand.leap(5_000);
    expect([await code(ask(ada, "GET", "/me")), await code(ask(bo, "GET", "/me"))]).toEqual([401, 200]);
    expect([(await enter(PIN)).statusCode, (await enter(NEXT)).statusCode]).toEqual([401, 200]);
  });

  it("[AUT-10] a sign-in by the old one at the same moment ends too", async () => {
    const { directory, signIns } = server.services;
    const token = await signIn(server.app, "ada");
    const add = directory.addSignIn.bind(directory);
    directory.addSignIn = async (record) => {
      directory.addSignIn = add;
      expect(await code(change(token, PIN, NEXT))).toBe(204);
      await add(record);
    };
    // Changes to one person's PIN run one after another, so this change must come from a server that does not share the
    // queue.
    signIns.confirm = async () => ({ is: "right" });
    expect((await enter(PIN)).statusCode).toBe(401);
  });
});

describe("one's own sign-ins", () => {
  it("[AUT-11] are listed, one's own alone and without their tokens, and ended one by one", async () => {
    const first = await signIn(server.app, "ada", "tablet-1");
    await server.hand.leap(1_000);
    const here = await signIn(server.app, "ada", "tablet-2");
    const panel = await new TestPanel(server.url, { token: first, proto: PROTOCOL }).settled();
    const bo = await signIn(server.app, "bo");
    const reply = await ask(here, "GET", "/me/sign-ins");
    const now = server.hand.clock.now();
    const listed = reply.json();
    expect(listed).toMatchObject([
      { deviceName: "Tablet", createdAt: now, here: true },
      { deviceName: "Tablet", createdAt: now - 1_000, here: false },
    ]);
    expect(Object.keys(listed[0]).sort()).toEqual(["createdAt", "deviceName", "here", "id", "usedAt"]);
    const other = listed[1].id;
    expect(await code(ask(bo, "DELETE", `/me/sign-ins/${other}`))).toBe(404);
    expect(await code(ask(first, "GET", "/me"))).toBe(200);
    expect(await code(ask(here, "DELETE", `/me/sign-ins/${other}`))).toBe(204);
    await panel.cut();
    expect(await code(ask(first, "GET", "/me"))).toBe(401);
    expect((await ask(here, "GET", "/me/sign-ins")).json()).toHaveLength(1);
    expect(await code(ask(here, "DELETE", `/me/sign-ins/${other}`))).toBe(404);
  });

  it("[AUT-12] ending it tells the browser to drop what it cached, and not the device's key", async () => {
    const token = await signIn(server.app, "ada");
    const out = await ask(token, "POST", "/sign-out");
    expect([out.statusCode, out.headers["clear-site-data"]]).toEqual([204, '"cache"']);
  });
});

describe("everybody", () => {
  it("[DEV-7] is seen by those qualified as supervisor alone, who stop others and let them in again", async () => {
    const [di, ada] = [await signIn(server.app, "di"), await signIn(server.app, "ada")];
    expect(await code(ask(ada, "GET", "/people/everybody"))).toBe(403);
    const people = async () =>
      ((await ask(di, "GET", "/people/everybody")).json() as { id: string; active: boolean }[]).map((p) => [
        p.id,
        p.active,
      ]);
    expect(await people()).toContainEqual(["gone", false]);
    expect(JSON.stringify((await ask(di, "GET", "/people/everybody")).json())).not.toContain("argon2");
    const set = (token: string, id: string, active: boolean) =>
      code(ask(token, "PUT", `/people/${id}/active`, { active }));
    expect(await set(di, "ada", false)).toBe(204);
    expect([await code(ask(ada, "GET", "/me")), (await enter(PIN)).statusCode]).toEqual([401, 401]);
    expect(await people()).toContainEqual(["ada", false]);
    expect(await set(di, "ada", true)).toBe(204);
    expect((await enter(PIN)).statusCode).toBe(200);
    // A sign-in that was cut off stays cut off.
    expect(await code(ask(ada, "GET", "/me"))).toBe(401);
    expect([await set(di, "di", false), await set(di, "nobody", false)]).toEqual([403, 404]);
  });
});
