import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { LIMITS } from "../../server/live/limits.ts";
import { planned, signIn } from "../http/test-server.ts";
import { HOLD, type LiveServer, liveServer, panelOf, type TestPanel } from "./panel.ts";

let server: LiveServer;
let session: string;
let panels: TestPanel[];

beforeEach(async () => {
  server = await liveServer();
  session = (await planned(server.app, await signIn(server.app, "fay"))).id;
  panels = [];
});
afterEach(async () => {
  for (const panel of panels) panel.close();
  await server.close();
});

const panel = async (handle: string, device?: string) => {
  const one = await panelOf(server, handle, device);
  panels.push(one);
  return one;
};
const AWAY = { connected: false, lastHeard: null };

describe("the beat of a session", () => {
  it("[LIV-9] comes to every watcher each two seconds, with the head and the server's time", async () => {
    const [ada, bo] = [await panel("ada"), await panel("bo")];
    await ada.watch(session);
    await server.hand.pass(LIMITS.beatSoonMs);
    await ada.until(() => ada.beats.length === 2);
    await bo.command(session, HOLD);
    const head = (await server.services.sessions.get(session)).state.seq;
    await server.hand.pass(LIMITS.beatMs - LIMITS.beatSoonMs);
    await ada.until(() => ada.beats.length === 3);
    for (const n of [4, 5]) {
      await server.hand.pass(LIMITS.beatMs);
      await ada.until(() => ada.beats.length === n);
      expect(ada.beats.at(-1)).toMatchObject({ session, head, serverNow: server.hand.clock.now() });
    }
    await bo.exchange();
    expect(bo.beats).toEqual([]);
  });

  it("[LIV-9] names the person at each post's panel, on the device from which the post is held", async () => {
    const [ada, bo, other] = [await panel("ada"), await panel("bo", "b1"), await panel("bo", "b2")];
    await ada.command(session, { type: "claimPost", post: "cockpit" });
    await bo.command(session, { type: "claimPost", post: "fireGuard" });
    await ada.watch(session);
    // Of the guard's two devices the other one watches, not the one from which the post is held.
    await other.watch(session);
    await server.hand.pass(LIMITS.beatMs);
    await ada.until(() => ada.beats.at(-1)?.serverNow === server.hand.clock.now());
    expect(ada.beats.at(-1)?.links).toEqual({
      cockpit: { connected: true, lastHeard: expect.any(Number) },
      fireGuard: AWAY,
      groundPower: AWAY,
      supervisor: AWAY,
    });
    await bo.watch(session);
    await ada.until(() => ada.beats.at(-1)?.links.fireGuard.connected === false);
    await server.hand.pass(LIMITS.beatMs);
    await ada.until(() => ada.beats.at(-1)?.links.fireGuard.connected === true);
  });

  it("[LIV-9] comes soon after a panel goes", async () => {
    const [ada, bo] = [await panel("ada"), await panel("bo")];
    await bo.command(session, { type: "claimPost", post: "fireGuard" });
    await bo.watch(session);
    await ada.watch(session);
    await ada.until(() => ada.beats.at(-1)?.links.fireGuard.connected === true);
    await server.hand.pass(LIMITS.beatSoonMs);
    await ada.until(() => ada.beats.length === 2);
    bo.close();
    while (ada.beats.length < 3) await server.hand.pass(LIMITS.beatSoonMs);
    expect(ada.beats.at(-1)?.links.fireGuard).toEqual(AWAY);
  });

  it("[LIV-9] is one for a crowd that comes and goes together", async () => {
    const ada = await panel("ada");
    await ada.watch(session);
    await server.hand.pass(LIMITS.beatSoonMs);
    await ada.until(() => ada.beats.length === 2);
    const crowd = await Promise.all(Array.from({ length: 10 }, (_, n) => panel("bo", `b${n}`)));
    for (const one of crowd) await one.watch(session);
    await ada.exchange();
    expect(ada.beats).toHaveLength(2);
    await server.hand.pass(LIMITS.beatSoonMs);
    await ada.until(() => ada.beats.length === 3);
    // Each newcomer hears of itself at once, and then of all.
    for (const one of crowd) await one.until(() => one.beats.length === 2);
    const { directory, signIns } = server.services;
    const bo = await directory.personByHandle("bo");
    await signIns.endAll({ personId: bo?.id ?? "" });
    await server.hand.pass(LIMITS.beatSoonMs);
    await ada.until(() => ada.beats.length === 4);
    await ada.exchange();
    expect(ada.beats).toHaveLength(4);
  });

  it("[LIV-9] says when each panel was last heard", async () => {
    const ada = await panel("ada");
    await ada.command(session, { type: "claimPost", post: "cockpit" });
    await ada.watch(session);
    const heard = server.hand.clock.now();
    await ada.until(() => ada.beats.length > 0);
    await server.hand.pass(LIMITS.beatMs);
    await ada.until(() => ada.beats.length > 1);
    expect(ada.beats.at(-1)?.links.cockpit.lastHeard).toBe(heard);
    await ada.exchange();
    await server.hand.pass(LIMITS.beatMs);
    await ada.until(() => ada.beats.length > 2);
    expect(ada.beats.at(-1)?.links.cockpit.lastHeard).toBe(heard + LIMITS.beatMs);
  });
});

describe("the clock exchange", () => {
  it("[LIV-9] gives the server's time of receipt and of answer", async () => {
    const ada = await panel("ada");
    const now = server.hand.clock.now();
    expect(await ada.ask("time", 1)).toEqual({ t2: now, t3: now });
  });
});

describe("the ramp", () => {
  it("[LIV-11] is told to every panel when a session is planned, changes its stage or ends, or a post is offered", async () => {
    const di = await panel("di");
    const token = await signIn(server.app, "fay");
    await server.hand.pass(LIMITS.rampMs);
    await planned(server.app, token);
    await di.until(() => di.ramps === 1);
    await server.hand.pass(LIMITS.rampMs);
    await di.command(session, { type: "claimPost", post: "supervisor" });
    await di.exchange();
    expect(di.ramps).toBe(1);
    await di.command(session, { type: "advance", to: "brief" });
    await di.until(() => di.ramps === 2);
    await server.hand.pass(LIMITS.rampMs);
    await di.command(session, { type: "offerPost", post: "supervisor", to: "fay" });
    await di.until(() => di.ramps === 3);
    await server.hand.pass(LIMITS.rampMs);
    await di.command(session, { type: "abandon", reason: "weather" });
    await di.until(() => di.ramps === 4);
  });
});
