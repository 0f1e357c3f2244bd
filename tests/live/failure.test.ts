import { randomUUID } from "node:crypto";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { HeldSessions } from "../../server/sessions/held-sessions.ts";
import { readSealed } from "../../shared/evidence/read.ts";
import { PROTOCOL } from "../../shared/protocol/version.ts";
import { planned, signIn } from "../http/test-server.ts";
import { GatedStore } from "./gated-store.ts";
import { HOLD, type LiveServer, liveServer, panelOf, TestPanel } from "./panel.ts";

let server: LiveServer;
let store: GatedStore;
let session: string;
let ada: TestPanel;
let bo: TestPanel;

beforeEach(async () => {
  store = new GatedStore();
  server = await liveServer({ store });
  session = (await planned(server.app, await signIn(server.app, "fay"))).id;
  [ada, bo] = [await panelOf(server, "ada"), await panelOf(server, "bo")];
  await ada.command(session, { type: "claimPost", post: "cockpit" });
  await bo.watch(session);
});
afterEach(async () => {
  ada.close();
  bo.close();
  await server.close();
});

const CLAIM = { type: "claimPost", post: "fireGuard" };
const stateNow = async () => (await server.services.sessions.get(session)).state;
const ready = async () => (await server.app.inject({ url: "/health/ready" })).statusCode;

describe("when nothing can be recorded", () => {
  it("[LIV-10] the answer to a command says so, and nothing of it counts or is broadcast", async () => {
    const before = await stateNow();
    store.broken = true;
    expect(await bo.command(session, CLAIM)).toEqual({
      status: "error",
      error: "notAvailable",
      message: "not recorded: use hand signals",
    });
    await bo.exchange();
    expect(await stateNow()).toBe(before);
    expect([bo.heard, bo.unrecorded]).toEqual([[], []]);
  });

  it.each(["hold", "cut", "cutAll", "fire", "turning"] as const)(
    "[LIV-10] a %s is passed on to all who watch, as not recorded",
    async (kind) => {
      const before = await stateNow();
      store.broken = true;
      await ada.watch(session);
      const action = { type: "send", kind, engine: 2, channel: "panel" } as const;
      expect(await ada.command(session, action)).toMatchObject({ error: "notAvailable" });
      await bo.until(() => bo.unrecorded.length > 0);
      expect(bo.unrecorded).toEqual([
        { session, action, by: { id: "ada", name: "Ada", post: "cockpit" }, at: server.hand.clock.now() },
      ]);
      expect(ada.unrecorded).toEqual(bo.unrecorded);
      expect(await stateNow()).toBe(before);
    },
  );

  it("[LIV-10] a stop is passed on even when the session itself cannot be read", async () => {
    const other = await liveServer({ store });
    const [cy, di] = [await panelOf(other, "cy"), await panelOf(other, "di")];
    await di.watch(session);
    const get = vi.spyOn(HeldSessions.prototype, "get").mockRejectedValue(new Error("unreadable"));
    expect(await cy.command(session, HOLD)).toMatchObject({ error: "notAvailable" });
    get.mockRestore();
    await di.until(() => di.unrecorded.length > 0);
    expect(di.unrecorded[0]).toMatchObject({ session, by: { id: "cy" } });
    cy.close();
    di.close();
    await other.close();
  });

  it("[SRV-12] readiness says so, and recovers by itself when it can be done again", async () => {
    expect(await ready()).toBe(200);
    store.broken = true;
    await bo.command(session, CLAIM);
    expect(await ready()).toBe(503);
    expect(await ready()).toBe(503);
    store.broken = false;
    expect(await ready()).toBe(200);
  });

  it("[LIV-17] every panel is told within two seconds, touched or not, also when it is over", async () => {
    const told: boolean[] = [];
    bo.socket.on("recording", ({ able }) => told.push(able));
    const passes = async () => {
      for (const _ of [1, 2]) await server.hand.pass(1_000);
      await bo.exchange();
    };
    await passes();
    expect(told).toEqual([]);
    store.broken = true;
    await passes();
    expect(told).toEqual([false]);
    await passes();
    expect(told).toEqual([false]);
    const newcomer = new TestPanel(server.url, { token: await signIn(server.app, "di"), proto: PROTOCOL });
    const first = new Promise((resolve) => newcomer.socket.on("recording", ({ able }) => resolve(able)));
    expect(await first).toBe(false);
    newcomer.close();
    store.broken = false;
    await passes();
    expect(told).toEqual([false, true]);
  });

  it("[LIV-17] a store that does not answer counts as one that cannot record", async () => {
    const told = new Promise((resolve) => bo.socket.on("recording", ({ able }) => resolve(able)));
    vi.spyOn(store, "probe").mockImplementation(() => new Promise(() => {}));
    for (const _ of [1, 2]) await server.hand.pass(1_000);
    expect(await told).toBe(false);
  });

  it("[LIV-10] the same command later acts once, on the chain as it was", async () => {
    const id = randomUUID();
    store.broken = true;
    await bo.command(session, CLAIM, { id });
    await bo.command(session, CLAIM, { id });
    store.broken = false;
    expect(await bo.command(session, CLAIM, { id })).toMatchObject({ status: "accepted" });
    expect(await bo.command(session, CLAIM, { id })).toMatchObject({ status: "duplicate" });
    const events = (await store.read(session, 0, 100)).map((e) => readSealed(e.body).event);
    expect(events.filter((e) => e.command === id)).toHaveLength(1);
    expect(events.map((e) => e.seq)).toEqual(events.map((_, i) => i + 1));
    // Read again, with its chain checked, it is the same session.
    const other = await liveServer({ store });
    expect((await other.services.sessions.get(session)).state.posts.fireGuard?.id).toBe("bo");
    await other.close();
  });

  it("[LIV-10] a whole batch fails together, and the next command finds the session unharmed", async () => {
    store.shut();
    const first = bo.command(session, HOLD);
    await bo.exchange();
    const pile = Array.from({ length: 5 }, () => bo.command(session, HOLD));
    await bo.exchange();
    store.broken = true;
    store.open();
    const results = await Promise.all([first, ...pile]);
    expect(new Set(results.map((r) => r.status))).toEqual(new Set(["error"]));
    store.broken = false;
    const before = (await stateNow()).seq;
    expect(await bo.command(session, HOLD)).toMatchObject({ status: "accepted", seq: before + 1 });
    expect((await stateNow()).holds).toHaveLength(1);
  });

  it("[LIV-10] the answer to a plan says so, and no session is made", async () => {
    const token = await signIn(server.app, "fay");
    store.broken = true;
    await expect(planned(server.app, token)).rejects.toThrow("notAvailable");
    store.broken = false;
    expect(await store.sessions(10)).toHaveLength(1);
  });
});
