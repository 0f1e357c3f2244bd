import { randomUUID } from "node:crypto";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { LIMITS } from "../../server/live/limits.ts";
import { sha256 } from "../../server/sha256.ts";
import { StoreFailure } from "../../server/store/events.ts";
import { MemoryEventStore } from "../../server/store/memory-events.ts";
import { readSealed } from "../../shared/evidence/read.ts";
import type { Action } from "../../shared/protocol/commands.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import { nextDeadline } from "../../shared/session/deadline.ts";
import { nonceOf, TestDevice } from "../http/device-key.ts";
import { HandClock, settle } from "../http/hand-clock.ts";
import { addAircraft, bearer, crewDirectory, PIN, planned, signIn } from "../http/test-server.ts";
import { GatedStore } from "../live/gated-store.ts";
import { HOLD, type LiveServer, liveServer, panelOf, type TestPanel } from "../live/panel.ts";
import { PNG } from "../pictures/files.ts";
import { Meeting } from "./meeting.ts";

let store: GatedStore;
let meeting: Meeting;
let hand: HandClock;
let one: LiveServer;
let two: LiveServer;
let session: string;
let panels: TestPanel[];

beforeEach(async () => {
  store = new GatedStore();
  meeting = new Meeting();
  hand = new HandClock();
  const directory = await crewDirectory();
  one = await liveServer({ store, directory, hand, others: meeting.join() });
  session = (await planned(one.app, await signIn(one.app, "fay"))).id;
  two = await liveServer({ store, directory, hand, others: meeting.join() });
  panels = [];
});
afterEach(async () => {
  for (const panel of panels) panel.close();
  await one.close();
  await two.close();
});

/** Returns a panel that watches the session. */
async function panel(server: LiveServer, handle: string): Promise<TestPanel> {
  const made = await panelOf(server, handle);
  panels.push(made);
  await made.watch(session);
  return made;
}

const facts = async () =>
  (await store.read(session, 0, 1_000)).map((e) => readSealed(e.body).event.fact.type);
const head = async () => (await store.session(session))?.headSeq ?? 0;
type Told = { seq: number; body: string; hash: string };
const rehashed = (body: string) => ({ body, hash: sha256(body) });
const CLAIM = (post: "cockpit" | "fireGuard") => ({ type: "claimPost", post }) as const;

describe("two servers on one record", () => {
  it("[HSE-15] tell every panel of both that something of the house changed on one of them, and of no reading", async () => {
    const [ada, bo] = [await panel(one, "ada"), await panel(two, "bo")];
    const headers = bearer(await signIn(one.app, "di"));
    await one.app.inject({ url: "/api/aircraft", headers });
    const before = [ada.ramps, bo.ramps] as const;
    const payload = { id: "wren", name: "Wren", engines: 2 };
    const made = await one.app.inject({ method: "POST", url: "/api/begun-types", headers, payload });
    expect(made.statusCode).toBe(201);
    // Panels are told at most four times a second.
    await hand.pass(1_000);
    await Promise.all([ada.until(() => ada.ramps > before[0]), bo.until(() => bo.ramps > before[1])]);
    expect(meeting.said.filter((m) => m.is === "houseMoved")).toHaveLength(1);
    const refused = await one.app.inject({ method: "POST", url: "/api/begun-types", headers, payload });
    expect(refused.statusCode).toBe(409);
    expect(meeting.said.filter((m) => m.is === "houseMoved")).toHaveLength(1);
  });

  it("[DEF-15] have the pictures of a defect that either took, and add the same one once, sent to both at once", async () => {
    const tokens = [await signIn(one.app, "di"), await signIn(two.app, "ada", "ada-other")];
    const at = "/api/aircraft/CH-TST";
    const defects = async (server: LiveServer, token = "") =>
      (await server.app.inject({ url: `${at}/defects`, headers: bearer(token) })).json();
    const action = { type: "writeDefect", words: "Oil leak", barsStart: false };
    await one.app.inject({
      ...{ method: "POST", url: `${at}/reports`, headers: bearer(tokens[0] ?? "") },
      payload: { commandId: randomUUID(), action },
    });
    const [{ id }] = await defects(two, tokens[1]);
    const send = (server: LiveServer, token = "") =>
      server.app.inject({
        ...{ method: "POST", url: `${at}/defects/${id}/pictures?commandId=${randomUUID()}`, payload: PNG },
        headers: { ...bearer(token), "content-type": "image/png" },
      });
    const both = await Promise.all([send(one, tokens[0]), send(two, tokens[1])]);
    expect(both.map((reply) => reply.statusCode)).toEqual([201, 201]);
    for (const [n, server] of [one, two].entries()) {
      const [life] = await defects(server, tokens[n]);
      expect(life.pictures).toHaveLength(1);
      const url = `${at}/defects/${id}/pictures/${life.pictures[0].sha256}`;
      const served = await server.app.inject({ url, headers: bearer(tokens[n] ?? "") });
      expect(served.rawPayload.equals(PNG)).toBe(true);
    }
  });

  it("[CLU-1] take any command for any session, and panels of both hear every event once, in order", async () => {
    const [ada, bo] = [await panel(one, "ada"), await panel(two, "bo")];
    await ada.command(session, CLAIM("cockpit"));
    await bo.command(session, CLAIM("fireGuard"));
    // Two commands at the same moment, ten times: one of each pair is decided again after the other was recorded.
    for (let i = 0; i < 10; i += 1) {
      const answers = await Promise.all([ada.command(session, HOLD), bo.command(session, HOLD)]);
      for (const answer of answers) expect(answer.status).toBe("accepted");
    }
    const end = await head();
    for (const heard of [ada, bo]) {
      await heard.until(() => heard.state?.seq === end);
      expect(heard.faults).toEqual([]);
      expect(heard.heard.map((e) => e.seq)).toEqual(
        heard.heard.map((_, i) => end - heard.heard.length + 1 + i),
      );
    }
    expect(ada.state).toEqual(bo.state);
    expect(ada.state?.holds).toHaveLength(20);
  });

  it("[CLU-1] answer the same command once, whichever of them it is sent to again", async () => {
    const [ada, bo] = [await panel(one, "ada"), await panelOf(two, "ada", "ada-tablet")];
    panels.push(bo);
    const id = "00000000-0000-4000-8000-00000000c1a1";
    const first = await ada.command(session, HOLD, { id, clientAt: 1 });
    meeting.deaf = true;
    expect(await bo.command(session, HOLD, { id, clientAt: 1 })).toMatchObject({ status: "duplicate" });
    expect(first).toMatchObject({ status: "accepted" });
    expect(ada.state?.holds ?? []).toHaveLength(1);
  });

  it("[CLU-1] see at once what the other planned, and keep its deadlines", async () => {
    const bo = await panel(two, "bo");
    const { ramps } = bo;
    const other = (await planned(one.app, await signIn(one.app, "fay"))).id;
    await bo.until(() => bo.ramps > ramps);
    expect((await two.services.sessions.get(other)).state.stage).toBe("plan");
  });

  it("[CLU-2] record the consequences of time once, also when the server that was told of them is gone", async () => {
    const [ada, bo] = [await panel(one, "ada"), await panel(two, "bo")];
    await ada.command(session, CLAIM("cockpit"));
    await bo.command(session, CLAIM("fireGuard"));
    await bo.command(session, HOLD);
    await settle();
    const due = nextDeadline((await one.services.sessions.get(session)).state) ?? 0;
    const lates = async () => (await facts()).filter((fact) => fact === "late").length;
    const before = await lates();
    await hand.pass(due - hand.clock.now());
    await settle();
    expect(await lates()).toBe(before + 1);
    ada.close();
    await one.close();
    await bo.command(session, HOLD);
    const next = nextDeadline((await two.services.sessions.get(session)).state) ?? 0;
    await hand.pass(next - hand.clock.now());
    await settle();
    expect((await two.services.sessions.get(session)).state.at).toBe(next);
    one = await liveServer({ store, hand });
  });

  it("[CLU-3] end a sign-in on both at once, or within seconds when they cannot reach each other", async () => {
    const ada = await panel(two, "ada");
    const token = await signIn(one.app, "cy");
    const cut = await panelOf(two, "cy");
    panels.push(cut);
    const out = (bearerToken: string) =>
      one.app.inject({ method: "POST", url: "/api/sign-out", headers: bearer(bearerToken) });
    const me = (bearerToken: string) =>
      two.app.inject({ method: "GET", url: "/api/me", headers: bearer(bearerToken) });
    expect((await me(token)).statusCode).toBe(200);
    await out(token);
    await settle();
    // The other server knew it a moment ago, and rejects it at once.
    expect((await me(token)).statusCode).toBe(401);

    const theirs = (cut.socket.auth as { token: string }).token;
    await out(theirs);
    await cut.cut();
    expect(cut.byes).toEqual([{ why: "signedOut", retryAfterMs: 0 }]);

    meeting.deaf = true;
    await out((ada.socket.auth as { token: string }).token);
    await hand.pass(LIMITS.recheckMs);
    await ada.cut();
  });

  it("[CLU-5] broadcast a stop that cannot be recorded to the panels of both", async () => {
    const [ada, bo] = [await panel(one, "ada"), await panel(two, "bo")];
    store.broken = true;
    expect(await ada.command(session, HOLD)).toMatchObject({ error: "notAvailable" });
    await bo.until(() => bo.unrecorded.length > 0);
    expect(bo.unrecorded).toEqual(ada.unrecorded);
    expect(bo.unrecorded[0]).toMatchObject({ session, action: HOLD, by: { id: "ada" } });
  });

  it("[CLU-5] broadcast a stop that takes long to record, and only once, although it is recorded later", async () => {
    const [ada, bo] = [await panel(one, "ada"), await panel(two, "bo")];
    store.shut();
    const answer = ada.command(session, HOLD);
    await one.services.sessions.get(session);
    await ada.exchange();
    await hand.pass(999);
    expect(ada.unrecorded).toEqual([]);
    await hand.pass(1);
    await bo.until(() => bo.unrecorded.length > 0);
    store.open();
    expect(await answer).toMatchObject({ status: "accepted" });
    await bo.until(() => (bo.state?.holds.length ?? 0) === 1);
    expect([ada.unrecorded.length, bo.unrecorded.length]).toEqual([1, 1]);
  });

  it("[CLU-6] lose no event when messages are lost: they read the record, twice a second when they know of the loss", async () => {
    const [ada, bo] = [await panel(one, "ada"), await panel(two, "bo")];
    meeting.deaf = true;
    await ada.command(session, HOLD);
    const lost = await head();
    await hand.pass(1_500);
    expect(bo.heard).toEqual([]);
    await hand.pass(500);
    await bo.until(() => bo.state?.seq === lost);
    meeting.down = true;
    await ada.command(session, HOLD);
    const known = await head();
    await hand.pass(500);
    await bo.until(() => bo.state?.seq === known);
    const ended = await planned(one.app, await signIn(one.app, "fay"));
    await hand.pass(500);
    await settle();
    expect((await two.services.sessions.get(ended.id)).state.stage).toBe("plan");
    expect(bo.faults).toEqual([]);
  });

  it("[CLU-6] treat a message that is doubled, late or false as a hint only", async () => {
    const [ada, bo] = [await panel(one, "ada"), await panel(two, "bo")];
    await ada.command(session, HOLD);
    const end = await head();
    await bo.until(() => bo.state?.seq === end);
    for (const seq of [end, 1, end + 1_000, -1]) meeting.repeat({ is: "moved", session, seq });
    meeting.repeat({ is: "moved", session: "00000000-0000-4000-8000-0000000000ff", seq: 4 });
    await settle();
    await ada.command(session, HOLD);
    const next = await head();
    await bo.until(() => bo.state?.seq === next);
    expect([...ada.faults, ...bo.faults]).toEqual([]);
    expect(bo.state).toEqual(ada.state);
  });

  it("[CLU-13] take events from the message when they are the next links of the chain they hold, without reading", async () => {
    const [ada, bo] = [await panel(one, "ada"), await panel(two, "bo")];
    const read = store.read.bind(store);
    let reads = 0;
    store.read = (...of) => {
      // Count only this session's reads: the aircraft's own record is read for its own message.
      if (of[0] === session) reads += 1;
      return read(...of);
    };
    for (let n = 0; n < 5; n += 1) await ada.command(session, HOLD);
    const end = await head();
    await bo.until(() => bo.state?.seq === end);
    expect(reads).toBe(0);
    expect(bo.state).toEqual(ada.state);
    // The next command on either server continues the same chain.
    expect(await bo.command(session, HOLD)).toMatchObject({ status: "accepted" });
    store.read = read;
    expect([...ada.faults, ...bo.faults]).toEqual([]);
  });

  it.each<[string, (e: Told) => Partial<Told>]>([
    ["changed", (e) => ({ body: e.body.replace('"clientAt":', '"clientAt":1') })],
    ["changed, their hash made to fit", (e) => rehashed(e.body.replace(/"prev":"./, '"prev":"z'))],
    ["numbered as what comes later", (e) => ({ seq: e.seq + 1 })],
    ["unreadable", () => rehashed("no event")],
  ])("[CLU-13] read the record when the events told are %s", async (_, spoil) => {
    const [ada, bo] = [await panel(one, "ada"), await panel(two, "bo")];
    meeting.spoil = (message) =>
      message.is === "moved"
        ? { ...message, events: message.events?.map((e) => ({ ...e, ...spoil(e) })) }
        : message;
    await ada.command(session, HOLD);
    const end = await head();
    await bo.until(() => bo.state?.seq === end);
    expect(bo.state).toEqual(ada.state);
    expect([...ada.faults, ...bo.faults]).toEqual([]);
  });

  it("[STO-10] do not apply events that do not follow those they hold", async () => {
    const ada = await panel(one, "ada");
    meeting.deaf = true;
    await ada.command(session, HOLD);
    const live = await two.services.sessions.get(session);
    const before = live.state;
    const read = store.read.bind(store);
    store.read = async (...of) =>
      (await read(...of)).map((e) => ({ ...e, body: e.body.replace('"clientAt":', '"clientAt":1') }));
    await expect(live.follow(before.seq + 1)).rejects.toThrow(/its chain is broken/);
    expect(live.state).toBe(before);
    store.read = read;
    await live.follow(before.seq + 1);
    expect(live.state.holds).toHaveLength(1);
  });

  it("[CLU-7] know which panels the other server hears, only as long as it reports them", async () => {
    const [ada, bo] = [await panel(one, "ada"), await panel(two, "bo")];
    await ada.command(session, CLAIM("cockpit"));
    await bo.command(session, CLAIM("fireGuard"));
    await settle();
    const links = async (of: TestPanel, ms: number) => {
      await hand.pass(ms);
      await settle();
      await of.until(() => of.beats.at(-1)?.serverNow === hand.clock.now());
      return of.beats.at(-1)?.links;
    };
    await hand.pass(LIMITS.beatMs);
    for (const of of [ada, bo])
      expect(await links(of, LIMITS.beatMs)).toMatchObject({
        cockpit: { connected: true, lastHeard: expect.any(Number) },
        fireGuard: { connected: true, lastHeard: expect.any(Number) },
        supervisor: { connected: false, lastHeard: null },
      });
    // The panel leaves: the other server reports it with the next beat.
    bo.close();
    while ((await links(ada, LIMITS.beatMs))?.fireGuard.connected);
    // The panel's server dies silently: after five seconds the panel no longer counts as connected.
    await panel(two, "bo");
    expect((await links(ada, LIMITS.beatMs))?.fireGuard.connected).toBe(true);
    meeting.deaf = true;
    expect((await links(ada, LIMITS.beatMs))?.fireGuard.connected).toBe(true);
    expect((await links(ada, 2 * LIMITS.beatMs))?.fireGuard.connected).toBe(false);
  });

  it("[CLU-8] void nothing when one joins the other; the first server after none was running does", async () => {
    expect(await facts()).toEqual(["planned"]);
    const alone = new Meeting();
    const later = await liveServer({ store, hand, others: alone.join() });
    expect(await facts()).toContain("restarted");
    await later.close();
  });
});

describe("a proof of a device's key", () => {
  it("[CLU-12] [DEV-4] that one server accepted is accepted by no other, and by none twice while the database is away", async () => {
    const directory = await crewDirectory();
    const secret = Buffer.alloc(32, "chance");
    const apart = new Meeting();
    const servers = [
      await liveServer({ store, directory, hand, secret, others: apart.join() }),
      await liveServer({ store, directory, hand, secret, others: apart.join() }),
    ];
    const [first, second] = servers as [LiveServer, LiveServer];
    const di = await signIn(first.app, "di");
    const post = (url: string, payload: object) =>
      first.app.inject({ method: "POST", url, headers: bearer(di), payload });
    const { code } = (await post("/api/devices/codes", { name: "T1" })).json();
    const device = await TestDevice.make();
    await device.enrol(first.app, code);
    const token = await device.signIn(first.app, "ada", PIN);
    const proof = async () =>
      device.proof({
        method: "GET",
        url: "http://localhost:80/api/me",
        nonce: await nonceOf(first.app),
        token,
      });
    const ask = async (server: LiveServer, dpop: string) =>
      (await server.app.inject({ url: "/api/me", headers: { authorization: `DPoP ${token}`, dpop } }))
        .statusCode;
    const dpop = await proof();
    expect([await ask(first, dpop), await ask(second, dpop), await ask(first, dpop)]).toEqual([
      200, 401, 401,
    ]);
    const both = await proof();
    const answers = await Promise.all([ask(first, both), ask(second, both)]);
    expect(answers.sort()).toEqual([200, 401]);

    const take = directory.takeOnce.bind(directory);
    directory.takeOnce = () => Promise.reject(new StoreFailure("away"));
    const away = await proof();
    expect([await ask(first, away), await ask(first, away)]).toEqual([200, 401]);
    let called = () => {};
    const asked = new Promise<void>((resolve) => {
      called = resolve;
    });
    directory.takeOnce = () => {
      called();
      return new Promise(() => {});
    };
    const hung = ask(first, await proof());
    await asked;
    await hand.leap(500);
    expect(await hung).toBe(200);
    directory.takeOnce = take;
    for (const server of servers) await server.close();
  });
});

describe("two sessions of one aircraft on two servers", () => {
  it("[CLU-11] leave their briefs one at a time, asked at once", async () => {
    const directory = await crewDirectory();
    let last: Promise<unknown> = Promise.resolve();
    const keys: string[][] = [];
    directory.inTurn = <T>(of: readonly string[], work: () => Promise<T>): Promise<T> => {
      keys.push([...of]);
      const turn = last.then(work);
      last = turn.catch(() => {});
      return turn;
    };
    const apart = new Meeting();
    const servers = [
      await liveServer({ store, directory, hand, others: apart.join() }),
      await liveServer({ store, directory, hand, others: apart.join() }),
    ];
    const say = (server: LiveServer | undefined, id: string, post: Post, action: Action) => {
      // Each server's session has a crew of its own.
      const person = {
        id: `${post}-${server ? servers.indexOf(server) : ""}`,
        name: post,
        device: `${post}-tablet`,
        mayHold: POSTS,
      };
      const command = { v: 1, id: randomUUID(), session: id, clientAt: 1, action } as const;
      return server?.services.sessions.command(person, command);
    };
    const ids: string[] = [];
    for (const server of servers) {
      const { id } = await planned(server.app, await signIn(server.app, "fay"));
      for (const post of POSTS) await say(server, id, post, { type: "claimPost", post });
      await say(server, id, "cockpit", { type: "advance", to: "brief" });
      for (const post of POSTS) await say(server, id, post, { type: "confirmBrief" });
      ids.push(id);
    }
    keys.length = 0;
    const secure = { type: "advance", to: "secure" } as const;
    const answers = await Promise.all(
      servers.map((server, n) => say(server, ids[n] ?? "", "cockpit", secure)),
    );
    expect(answers).toMatchObject([{ status: "accepted" }, { refusal: { reason: "aircraftBusy" } }]);
    expect(keys).toEqual([["aircraft:CH-TST"], ["aircraft:CH-TST"]]);
    for (const server of servers) await server.close();
  });
});

describe("an aircraft and its sessions on two servers", () => {
  const send = (server: LiveServer, id: string, kind: "hold" | "release", more = {}) =>
    server.services.sessions.command(
      { id: "bo", name: "Bo", device: "bo-tablet", mayHold: POSTS, currentUntil: null },
      {
        v: 1,
        id: randomUUID(),
        session: id,
        clientAt: 1,
        action: { type: "send", kind, channel: "panel", ...more },
      },
    );

  it("[STN-2] have a stop of one session in the other, on both servers, and its end too", async () => {
    const other = (await planned(two.app, await signIn(two.app, "fay"))).id;
    await send(one, session, "hold");
    await settle();
    const holds = async (server: LiveServer, id: string) =>
      (await server.services.sessions.get(id)).state.holds;
    for (const server of [one, two])
      expect(await holds(server, other)).toMatchObject([{ by: { name: "Bo" } }]);
    const [there] = await holds(two, other);
    await send(two, other, "release", { ref: there?.id });
    await settle();
    for (const server of [one, two]) expect(await holds(server, session)).toEqual([]);
  });

  it("[STN-1] a stop that outlives its session on one server stands in a plan made on the other", async () => {
    await send(one, session, "hold");
    const fay = { id: "fay", name: "Fay", device: "fay-tablet", mayHold: POSTS, currentUntil: null };
    const gus = { ...fay, id: "gus", name: "Gus", device: "gus-tablet" };
    // A change of post would end what the first of the two asked for.
    for (const [who, action] of [
      [gus, { type: "claimPost", post: "cockpit" }],
      [fay, { type: "claimPost", post: "supervisor" }],
      [fay, { type: "abandon", reason: "storm" }],
      [gus, { type: "abandon", reason: "storm" }],
    ] as const)
      await one.services.sessions.command(who, { v: 1, id: randomUUID(), session, clientAt: 1, action });
    await settle();
    expect((await one.services.sessions.get(session)).state.stage).toBe("abandoned");
    const next = (await planned(two.app, await signIn(two.app, "fay"))).id;
    expect((await two.services.sessions.get(next)).state.holds).toMatchObject([{ by: { name: "Bo" } }]);
  });
});

describe("a person and two sessions on two servers", () => {
  const bo = { id: "bo", name: "Bo", device: "bo-tablet", mayHold: POSTS, currentUntil: null };
  const claim = (server: LiveServer, id: string, post: Post, person = bo) =>
    server.services.sessions.command(person, {
      v: 1,
      id: randomUUID(),
      session: id,
      clientAt: 1,
      action: { type: "claimPost", post },
    });
  const other = async () => (await planned(two.app, await signIn(two.app, "fay"))).id;

  it("[PST-12] takes a post in one of them only, asked of both servers at once", async () => {
    const second = await other();
    // A database gives the turns that two servers share; here one chain does.
    let last: Promise<unknown> = Promise.resolve();
    const keys: string[] = [];
    one.services.directory.inTurn = <T>(of: readonly string[], work: () => Promise<T>): Promise<T> => {
      keys.push(...of);
      const turn = last.then(work);
      last = turn.catch(() => {});
      return turn;
    };
    const apart = new Meeting();
    const servers = [
      await liveServer({ store, directory: one.services.directory, hand, others: apart.join() }),
      await liveServer({ store, directory: one.services.directory, hand, others: apart.join() }),
    ] as const;
    const answers = await Promise.all([
      claim(servers[0], session, "fireGuard"),
      claim(servers[1], second, "fireGuard"),
    ]);
    expect(answers).toMatchObject([
      { status: "accepted" },
      { status: "refused", refusal: { reason: "postElsewhere" } },
    ]);
    expect(keys).toEqual(["person:bo", "person:bo"]);
    for (const server of servers) await server.close();
  });

  it("[PST-13] is known to supervise both by each server, before its next decision once it was told", async () => {
    await addAircraft(one.services.directory, { id: "CH-OTH", name: "Other bird", typeId: "four" });
    const there = (await planned(two.app, await signIn(two.app, "fay"), { aircraft: "CH-OTH" })).id;
    await claim(one, session, "supervisor");
    await claim(two, there, "supervisor");
    await settle();
    const also = async (server: LiveServer, id: string) =>
      (await server.services.sessions.get(id)).state.supervisesAlso;
    for (const server of [one, two]) {
      expect(await also(server, session)).toEqual(["CH-OTH"]);
      expect(await also(server, there)).toEqual(["CH-TST"]);
    }
    const told = (await facts()).filter((type) => type === "supervisesAlso");
    expect(told).toHaveLength(1);
  });

  it("[PST-12] may supervise both, and takes a post in the second once the first is left", async () => {
    const second = await other();
    expect(await claim(one, session, "supervisor")).toMatchObject({ status: "accepted" });
    expect(await claim(two, second, "supervisor")).toMatchObject({ status: "accepted" });
    const fay = { ...bo, id: "fay-2", device: "fay-2-tablet" };
    await claim(one, session, "fireGuard", fay);
    const refused = await claim(two, second, "cockpit", fay);
    expect(refused).toMatchObject({ refusal: { reason: "postElsewhere", found: await codeOf(session) } });
    await one.services.sessions.command(fay, {
      v: 1,
      id: randomUUID(),
      session,
      clientAt: 1,
      action: { type: "leavePost", post: "fireGuard" },
    });
    expect(await claim(two, second, "cockpit", fay)).toMatchObject({ status: "accepted" });
  });
});

const codeOf = async (id: string) => (await store.session(id))?.code;

describe("a session read while another server goes on in it", () => {
  it("[CLU-6] is read up to its present end, and not reported as a wrong record", async () => {
    class Moving extends MemoryEventStore {
      between: (() => Promise<void>) | null = null;
      override async read(id: string, since: number, limit: number) {
        const work = this.between;
        this.between = null;
        await work?.();
        return super.read(id, since, limit);
      }
    }
    const moving = new Moving();
    const [first, second] = [
      await liveServer({ store: moving, hand }),
      await liveServer({ store: moving, hand }),
    ];
    const id = (await planned(first.app, await signIn(first.app, "fay"))).id;
    const ada = await panelOf(first, "ada");
    panels.push(ada);
    moving.between = async () => void (await ada.command(id, HOLD));
    expect((await second.services.sessions.get(id)).state.holds).toHaveLength(1);
    await first.close();
    await second.close();
  });
});
