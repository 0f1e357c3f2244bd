import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { Bucket } from "../../server/live/bucket.ts";
import { LIMITS } from "../../server/live/limits.ts";
import { Bounds } from "../../server/live/person-bounds.ts";
import type { Action } from "../../shared/protocol/commands.ts";
import { planned, signIn } from "../http/test-server.ts";
import { HOLD, type LiveServer, liveServer, panelOf, type TestPanel } from "./panel.ts";

let server: LiveServer;
let session: string;
let ada: TestPanel;

beforeEach(async () => {
  server = await liveServer();
  session = (await planned(server.app, await signIn(server.app, "fay"))).id;
  ada = await panelOf(server, "ada");
});
afterEach(async () => {
  ada.close();
  await server.close();
});

const good = (over: Record<string, unknown>) => ({
  v: 1,
  id: "5b2c9a52-6a0e-4c7e-9a55-0d4d2f7d1a11",
  session,
  clientAt: 1,
  action: HOLD,
  ...over,
});

describe("a message that is not understood", () => {
  it.each<[string, (g: typeof good) => unknown, string]>([
    ["nothing", () => undefined, "message"],
    ["text", () => "hold", "message"],
    ["a list", () => [1, 2], "message"],
    ["no id", (g) => g({ id: undefined }), "id"],
    ["an id that is no UUID", (g) => g({ id: "1" }), "id"],
    ["another version", (g) => g({ v: 2 }), "v"],
    ["a session that is no id", (g) => g({ session: "../x" }), "session"],
    ["an action nobody knows", (g) => g({ action: { type: "launch" } }), "action.type"],
    ["a stop nobody knows", (g) => g({ action: { type: "send", kind: "halt" } }), "action.kind"],
    ["a field nobody knows", (g) => g({ admin: true }), "message"],
    ["a control character", (g) => g({ action: { ...HOLD, note: "a\u0000b" } }), "action.note"],
    ["text that runs backwards", (g) => g({ action: { ...HOLD, note: "\u202eabc" } }), "action.note"],
    ["text too long", (g) => g({ action: { ...HOLD, note: "x".repeat(281) } }), "action.note"],
    ["a number that is none", (g) => g({ clientAt: "soon" }), "clientAt"],
    [
      "a prototype",
      (g) => JSON.parse(`{"__proto__": {"v": 1}, "action": ${JSON.stringify(g({}).action)}}`),
      "v",
    ],
  ])("[LIV-6] is refused: %s", async (_what, make, where) => {
    const answer = await ada.ask("command", make(good));
    expect(answer).toMatchObject({ status: "error", error: "malformed" });
    expect((answer as { message: string }).message).toMatch(new RegExp(`^${where.replace(".", "\\.")}: `));
    // The panel continues.
    expect(await ada.command(session, HOLD)).toMatchObject({ status: "accepted" });
  });

  it("[LIV-6] does no harm without a callback for its answer, or with a strange one", async () => {
    for (const event of ["command", "watch", "unwatch", "time", "nothing"]) {
      ada.socket.emit(event);
      ada.socket.emit(event, ...([null, "not a function", {}] as never[]));
    }
    expect(await ada.command(session, HOLD)).toMatchObject({ status: "accepted" });
  });

  it("[LIV-6] is refused when it names no existing session", async () => {
    expect(await ada.command("none", HOLD)).toMatchObject({ status: "error", error: "noSuchSession" });
  });

  it("[SRV-6] may contain markup, which is plain text", async () => {
    const note = `<script>alert(1)</script> & "x"`;
    await ada.command(session, { ...HOLD, note } as Action);
    expect((await server.services.sessions.get(session)).state.holds[0]?.note).toBe(note);
  });

  it("[LIV-6] larger than the limit cuts its socket, and no other", async () => {
    const bo = await panelOf(server, "bo");
    ada.socket.emit("command", good({ action: { ...HOLD, note: "x".repeat(LIMITS.messageBytes) } }) as never);
    await ada.cut();
    expect(await bo.command(session, HOLD)).toMatchObject({ status: "accepted" });
    bo.close();
  });

  it("[LIV-6] below the protocol cuts its socket, and no other", async () => {
    const bo = await panelOf(server, "bo");
    ada.socket.io.engine.write("garbage that is no packet");
    await ada.cut();
    expect(await bo.command(session, HOLD)).toMatchObject({ status: "accepted" });
    bo.close();
  });
});

describe("too many messages", () => {
  it("[LIV-7] are refused past the burst, and accepted again a little later", async () => {
    const claim = { type: "claimPost", post: "supervisor" };
    const results = await Promise.all(
      Array.from({ length: LIMITS.burst + 5 }, () => ada.command(session, claim)),
    );
    const refused = results.filter((r) => r.status === "error");
    expect(refused).toHaveLength(5);
    for (const r of refused) expect(r).toMatchObject({ error: "tooMany" });
    await server.hand.pass(1_000 / LIMITS.perSecond);
    expect(await ada.command(session, claim)).toMatchObject({ status: "refused" });
    expect(await ada.command(session, claim)).toMatchObject({ error: "tooMany" });
  });

  it("[LIV-7] never keep a hold, a cut, a fire or a turning engine from being recorded", async () => {
    await Promise.all(
      Array.from({ length: LIMITS.burst + 20 }, () => ada.command(session, { type: "present" })),
    );
    expect(await ada.command(session, { type: "present" })).toMatchObject({ error: "tooMany" });
    const stops = ["hold", "cut", "cutAll", "fire", "turning"] as const;
    const actions = Array.from({ length: 20 }, () => stops).flat();
    const results = await Promise.all(
      actions.map((kind) => ada.command(session, { type: "send", kind, engine: 2, channel: "panel" })),
    );
    // A stop that says no more than an open one gets that answer: each of the others is on the record.
    const log = await server.services.store.read(session, 0, 1_000);
    const sent = new Set(log.filter((e) => e.type === "sent").map((e) => e.seq));
    for (const r of results) {
      expect(["accepted", "duplicate"]).toContain(r.status);
      expect(sent.has((r as { seq: number }).seq)).toBe(true);
    }
  });

  it("[LIV-7] are limited even if they look like stops but are none", async () => {
    await Promise.all(Array.from({ length: LIMITS.burst }, () => ada.exchange()));
    for (const action of [
      { type: "send", kind: "release", ref: 1 },
      { type: "send", kind: ["hold"] },
      { kind: "hold" },
    ])
      expect(await ada.command(session, action as never)).toMatchObject({ error: "tooMany" });
  });

  it("[LIV-7] of one panel do not limit another panel", async () => {
    const bo = await panelOf(server, "bo");
    await Promise.all(
      Array.from({ length: LIMITS.burst + 1 }, () => ada.command(session, { type: "present" })),
    );
    const claim = { type: "claimPost", post: "fireGuard" };
    expect(await bo.command(session, claim)).toMatchObject({ status: "accepted" });
    bo.close();
  });

  it("[SEC-20] of one person are bounded over all their sockets, opened anew or not; stops are not", async () => {
    const bo = await panelOf(server, "bo");
    const sockets: TestPanel[] = [ada];
    const say = async (panel: TestPanel, n: number) => {
      const said = await Promise.all(
        Array.from({ length: n }, () => panel.command(session, { type: "present" })),
      );
      return said.filter((r) => r.status !== "error" || r.error !== "tooMany").length;
    };
    let taken = 0;
    while (sockets.length * LIMITS.burst <= LIMITS.personBurst) sockets.push(await panelOf(server, "ada"));
    for (const panel of sockets) taken += await say(panel, LIMITS.burst);
    expect(taken).toBe(LIMITS.personBurst);
    for (const panel of sockets) panel.close();
    const anew = await panelOf(server, "ada");
    expect(await say(anew, 5)).toBe(0);
    expect(await anew.command(session, HOLD)).toMatchObject({ status: "accepted" });
    expect(await say(bo, 5)).toBe(5);
    await server.hand.pass(1_000);
    expect(await say(anew, LIMITS.burst)).toBe(LIMITS.burst);
    anew.close();
    bo.close();
  });

  it("[SEC-20] are forgotten once a person's whole allowance is back", () => {
    const bounds = new Bounds();
    const ada = bounds.of("ada", 0);
    expect(ada.all.take(0)).toBe(true);
    bounds.of("bo", 1);
    expect(bounds.of("ada", 1)).toBe(ada);
    bounds.of("cy", 60_000);
    expect(bounds.of("ada", 60_000)).not.toBe(ada);
  });

  it("[SEC-20] stay as few as the people who send, at two look-ups for each new one", () => {
    const bounds = new Bounds();
    // One newcomer each five seconds who sends as much as they may: it takes four seconds until all is back.
    for (let n = 0; n < 1_000; n += 1) {
      const { all } = bounds.of(`person ${n}`, n * 5_000);
      while (all.take(n * 5_000));
      expect(bounds.size).toBeLessThanOrEqual(3);
    }
    // A crowd at one time is forgotten by as many newcomers as it had people.
    for (let n = 0; n < 500; n += 1) expect(bounds.of(`crowd ${n}`, 1e7).all.take(1e7)).toBe(true);
    expect(bounds.size).toBeGreaterThanOrEqual(500);
    for (let n = 0; n < 500; n += 1) bounds.of(`late ${n}`, 2e7 + n);
    expect(bounds.size).toBeLessThanOrEqual(500);
  });

  it("[LIV-7] are counted by a bucket that fills with time, never beyond its size", () => {
    const bucket = new Bucket(3, 2, 0);
    const take = (times: number, now: number) => Array.from({ length: times }, () => bucket.take(now));
    expect(take(4, 0)).toEqual([true, true, true, false]);
    expect(take(2, 500)).toEqual([true, false]);
    expect(take(1, 999)).toEqual([false]);
    expect(take(5, 60_000)).toEqual([true, true, true, false, false]);
    // A clock that went back neither adds nor takes away allowance.
    expect(take(1, 0)).toEqual([false]);
    expect(take(2, 500)).toEqual([true, false]);
  });
});
