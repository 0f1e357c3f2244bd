import { randomUUID } from "node:crypto";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { LIMITS } from "../../server/live/limits.ts";
import { seldom } from "../../server/live/seldom.ts";
import { OPEN_PER_PERSON } from "../../server/sessions/planning.ts";
import { MemoryEventStore } from "../../server/store/memory-events.ts";
import { HandClock } from "../http/hand-clock.ts";
import { bearer, planBody, planned, signIn } from "../http/test-server.ts";
import { HOLD, type LiveServer, liveServer, panelOf } from "../live/panel.ts";

let server: LiveServer;
let store: MemoryEventStore;
beforeEach(async () => {
  store = new MemoryEventStore();
  server = await liveServer({ store });
});
afterEach(() => server.close());

const plan = (token: string) =>
  server.app.inject({ method: "POST", url: "/api/sessions", headers: bearer(token), payload: planBody() });
const ask = (token: string, url: string) => server.app.inject({ url, headers: bearer(token) });

describe("planning", () => {
  it.each([
    ["ada", 201],
    ["di", 201],
    ["fay", 201],
    ["bo", 403],
    ["cy", 403],
    ["ed", 403],
  ])("[SEC-23] is for cockpit and supervisor: %s gets %i", async (handle, status) => {
    expect((await plan(await signIn(server.app, handle))).statusCode).toBe(status);
  });

  it("[SEC-23] by one person stops at so many open sessions, also asked for all at once; another's goes on, and an end makes room", async () => {
    const ada = await signIn(server.app, "ada");
    const all = await Promise.all(Array.from({ length: OPEN_PER_PERSON + 20 }, () => plan(ada)));
    const made = all.filter((r) => r.statusCode === 201);
    expect(made).toHaveLength(OPEN_PER_PERSON);
    expect(all.filter((r) => r.statusCode === 429)).toHaveLength(20);
    expect((await plan(await signIn(server.app, "di"))).statusCode).toBe(201);
    const fay = await panelOf(server, "fay");
    const first = made[0]?.json().id;
    await fay.command(first, { type: "claimPost", post: "supervisor" });
    await fay.command(first, { type: "abandon", reason: "weather" });
    expect((await plan(ada)).statusCode).toBe(201);
    expect((await plan(ada)).statusCode).toBe(429);
    fay.close();
  });

  it("[SEC-24] never pushes a running start off the list", async () => {
    const row = (n: number, stage: string) => ({
      id: `s${n}`,
      code: `C${n}`,
      planCommand: `p${n}`,
      aircraft: "CH-TST",
      typeId: "t",
      typeVersion: 1,
      typeName: "T",
      place: "P",
      stage,
      needs: 0,
      createdAt: n,
      closedAt: null,
      headSeq: 1,
      headHash: "h",
      headAt: n,
    });
    const rows = Array.from({ length: 300 }, (_, n) => row(n, n === 0 ? "starting" : "plan"));
    vi.spyOn(store, "openSessions").mockResolvedValue(rows);
    vi.spyOn(store, "sessions").mockImplementation(async (limit) => [...rows].reverse().slice(0, limit));
    const list = (await ask(await signIn(server.app, "bo"), "/api/sessions")).json();
    expect(list).toHaveLength(200);
    expect(list[0].id).toBe("s0");
    expect(list[1].id).toBe("s299");
  });

  it("[SEC-24] is told to panels at most four times a second, and the last change always", async () => {
    const hand = new HandClock();
    let told = 0;
    const tell = seldom(hand, LIMITS.rampMs, () => {
      told += 1;
    });
    for (let n = 0; n < 2_397; n += 1) {
      tell();
      if (n % 100 === 0) await hand.pass(1);
    }
    expect(told).toBe(1);
    await hand.pass(LIMITS.rampMs);
    expect(told).toBe(2);
    await hand.pass(10 * LIMITS.rampMs);
    expect(told).toBe(2);
    tell();
    expect(told).toBe(3);
  });

  it("[SEC-24] costs the noise of others no reading: those of which only the plan is recorded are passed over, and two asks read once", async () => {
    const fay = await signIn(server.app, "fay");
    const sessions = [];
    for (let n = 0; n < 20; n += 1) sessions.push(await planned(server.app, fay));
    const read = vi.spyOn(store, "read");
    const url = `/api/sessions/${sessions[0]?.id}/noise`;
    const all = await Promise.all(Array.from({ length: 10 }, () => ask(fay, url)));
    expect(new Set(all.map((r) => r.statusCode))).toEqual(new Set([200]));
    expect(read).toHaveBeenCalledTimes(1);
  });
});

describe("a session that is over", () => {
  /** Ends a session and restarts the server, so that nothing of the session is in memory. */
  async function ended(): Promise<{ id: string; command: string }> {
    const { id } = await planned(server.app, await signIn(server.app, "fay"));
    const fay = await panelOf(server, "fay");
    const command = randomUUID();
    await fay.command(id, HOLD, { id: command });
    await fay.command(id, { type: "claimPost", post: "supervisor" });
    await fay.command(id, { type: "abandon", reason: "weather" });
    fay.close();
    await server.close();
    server = await liveServer({ store });
    return { id, command };
  }

  it("[SEC-25] answers commands that are no stops from its row, and a repeated command as it was answered, without reading its events", async () => {
    const { id, command } = await ended();
    const ada = await panelOf(server, "ada");
    const fay = await panelOf(server, "fay");
    const [read, look] = [vi.spyOn(store, "read"), vi.spyOn(store, "ofCommand")];
    const answers = await Promise.all(
      Array.from({ length: LIMITS.burst }, () => ada.command(id, { type: "present" })),
    );
    for (const answer of answers)
      expect(answer).toMatchObject({ status: "refused", seq: null, refusal: { reason: "sessionOver" } });
    expect(look.mock.calls.length).toBeLessThanOrEqual(LIMITS.burst);
    expect(await fay.command(id, { type: "present" }, { id: command })).toMatchObject({
      status: "refused",
      refusal: { reason: "idReused" },
    });
    expect(read).not.toHaveBeenCalled();
    ada.close();
    fay.close();
  });

  it("[SEC-25] is read again for one person only a bounded number of times, by any route", async () => {
    const { id } = await ended();
    const row = await store.session(id);
    const one = vi.spyOn(store, "session");
    one.mockImplementation(async () => row);
    const putAway = vi.spyOn(server.services.sessions, "isPutAway").mockResolvedValue(true);
    const [bo, ada] = [await signIn(server.app, "bo"), await signIn(server.app, "ada")];
    const codes: number[] = [];
    for (let n = 0; n < LIMITS.readingBurst; n += 1)
      codes.push((await ask(bo, `/api/sessions/${id}`)).statusCode);
    expect(new Set(codes)).toEqual(new Set([200]));
    expect((await ask(bo, `/api/sessions/${id}`)).statusCode).toBe(429);
    const panel = await panelOf(server, "bo");
    await expect(panel.watch(id)).rejects.toThrow("too many");
    expect((await ask(ada, `/api/sessions/${id}`)).statusCode).toBe(200);
    await server.hand.pass(1_000 / LIMITS.readingsPerSecond);
    expect((await panel.watch(id)).head).toBeGreaterThan(1);
    panel.close();
    putAway.mockRestore();
  });
});
