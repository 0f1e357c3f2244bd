import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { conditionOf } from "../../shared/conditions/all.ts";
import { playPost } from "../../shared/partners/play.ts";
import type { Action } from "../../shared/protocol/commands.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import { isOver, type SessionState } from "../../shared/session/state.ts";
import { FIRE, RECENT } from "../spec/equipped.ts";
import { settle } from "./hand-clock.ts";
import {
  bearer,
  NO_CREW,
  PIN,
  planBody,
  planned,
  signIn,
  type TestServer,
  testServer,
} from "./test-server.ts";

let test: TestServer;
const tokens: Record<string, string> = {};
beforeEach(async () => {
  test = await testServer();
  for (const who of ["di", "ada", "bo"]) tokens[who] = await signIn(test.app, who);
});
afterEach(() => test.close());

async function ask(
  who: string,
  method: "GET" | "POST" | "PUT",
  url: string,
  payload?: object,
  revision?: number,
) {
  const tag = revision === undefined ? {} : { "if-match": `"${revision}"` };
  const reply = await test.app.inject({
    ...{ method, url: `/api${url}`, headers: { ...bearer(tokens[who] ?? ""), ...tag } },
    ...(payload === undefined ? {} : { payload }),
  });
  const body = reply.body === "" ? null : reply.json();
  return { status: reply.statusCode, body, kind: body?.type?.split(":").at(-1) };
}

const bo = { id: "bo", name: "Bo", device: "bo-tablet", mayHold: ["fireGuard" as const] };
const claim = (session: string, n: number) =>
  test.services.sessions.command(bo, {
    ...{ v: 1, id: `00000000-0000-4000-8000-0000000c${String(n).padStart(4, "0")}`, session, clientAt: 1 },
    action: { type: "claimPost", post: "fireGuard" },
  });

describe("a currency that the house keeps", () => {
  it("[CUR-1] is added and changed by a supervisor at the revision read, and can be retired", async () => {
    expect((await ask("ada", "POST", "/currencies", FIRE)).kind).toBe("notQualified");
    expect((await ask("di", "POST", "/currencies", FIRE)).body).toEqual({ id: "fire", revision: 1 });
    expect((await ask("di", "POST", "/currencies", FIRE)).kind).toBe("taken");
    const { id: _id, ...entry } = { ...FIRE, name: "Fire drill", retired: true };
    expect((await ask("di", "PUT", "/currencies/fire", entry, 1)).status).toBe(200);
    expect((await ask("di", "PUT", "/currencies/fire", entry, 1)).kind).toBe("stale");
    expect((await ask("ada", "GET", "/currencies")).body).toEqual([{ id: "fire", ...entry, revision: 2 }]);
    expect((await ask("ada", "GET", "/people/lapses")).body.flatMap((p: { lapses: [] }) => p.lapses)).toEqual(
      [],
    );
  });

  it("[CUR-5] bars a plan and the taking of the post, with words, until a supervisor enters the date", async () => {
    const session = (await ask("ada", "POST", "/sessions", planBody())).body.id;
    await ask("di", "POST", "/currencies", FIRE);
    const crew = { ...NO_CREW, fireGuard: "bo" };
    const plan = () => ask("ada", "POST", "/sessions", planBody({ crew }));
    expect((await plan()).body.errors).toEqual([
      { path: "crew.fireGuard", message: "Fire training of Bo has lapsed or has no date" },
    ]);
    expect(await claim(session, 1)).toMatchObject({
      refusal: { reason: "currencyLapsed", found: "Fire training" },
    });
    expect((await ask("bo", "PUT", "/people/bo/dates", { fire: "2099-12-31" })).kind).toBe("notQualified");
    expect((await ask("di", "PUT", "/people/di/dates", { fire: "2099-12-31" })).kind).toBe("ownWork");
    expect((await ask("di", "PUT", "/people/bo/dates", { none: "2099-12-31" })).kind).toBe("notFound");
    expect((await ask("di", "PUT", "/people/bo/dates", { fire: "31.12.2099" })).status).toBe(400);
    expect((await ask("di", "PUT", "/people/bo/dates", { fire: "2099-12-31" })).status).toBe(204);
    expect((await ask("di", "GET", "/people/dates")).body).toEqual({ bo: { fire: "2099-12-31" } });
    expect((await plan()).status).toBe(201);
    expect((await claim(session, 2)).status).toBe("accepted");
  });

  it("[CUR-4] [CUR-5] that only warns is shown to who plans and to the person, and bars nothing", async () => {
    await ask("di", "POST", "/currencies", FIRE);
    const lapse = {
      post: "cockpit",
      kind: "fire",
      name: "Fire training",
      until: null,
      is: "over",
      bars: false,
    };
    const all = (await ask("ada", "GET", "/people/lapses")).body;
    expect(all).toContainEqual({ person: "ada", lapses: [lapse] });
    expect((await ask("ada", "GET", "/me/lapses")).body).toEqual([lapse]);
    expect((await ask("bo", "GET", "/people/lapses")).kind).toBe("notQualified");
    const crew = { ...NO_CREW, cockpit: "ada" };
    expect((await ask("ada", "POST", "/sessions", planBody({ crew }))).status).toBe(201);
  });

  it("[CUR-3] by recency is renewed by a start in a session that is closed", async () => {
    await ask("di", "POST", "/currencies", RECENT);
    const { directory } = test.services;
    const now = test.hand.clock.now();
    expect((await ask("bo", "GET", "/me/lapses")).body).toMatchObject([{ is: "over", until: null }]);
    await directory.currencies.noteStarts([{ personId: "bo", post: "fireGuard", at: now }]);
    expect((await ask("bo", "GET", "/me/lapses")).body).toEqual([]);
  });
});

const CREW = {
  cockpit: { id: "ada", name: "Ada", device: "ada-tablet", mayHold: ["cockpit"] },
  fireGuard: { id: "bo", name: "Bo", device: "bo-tablet", mayHold: ["fireGuard"] },
  groundPower: { id: "cy", name: "Cy", device: "cy-tablet", mayHold: ["groundPower"] },
  supervisor: { id: "di", name: "Di", device: "di-tablet", mayHold: ["supervisor"] },
} as const;

/** Lets four people play a session to its end by the server's commands, and returns how it ended. */
async function playToEnd(id: string): Promise<SessionState> {
  const { sessions } = test.services;
  let n = 0;
  const give = (post: Post, action: Action) => {
    n += 1;
    const command = `00000000-0000-4000-8000-0000000d${String(n).padStart(4, "0")}`;
    return sessions.command(CREW[post], { v: 1, id: command, session: id, clientAt: 1, action });
  };
  for (const post of POSTS)
    expect((await give(post, { type: "claimPost", post })).status, post).toBe("accepted");
  for (let looks = 0; looks < 20_000; looks += 1) {
    const { state } = await sessions.get(id);
    if (isOver(state)) return state;
    const now = test.hand.clock.now();
    const moves = POSTS.flatMap((post) => {
      const move = playPost(state, post, now, { seed: 3, pace: 1, cart: "Cart" });
      return move && move.notBefore <= now ? [{ post, move }] : [];
    });
    const [next] = moves;
    if (next) await give(next.post, next.move.action);
    else await test.hand.pass(1_000);
  }
  throw new Error("the session does not end");
}

it("[CUR-3] a start that was played to its end renews recency at each post, by the record, until its days are over", async () => {
  await ask("di", "POST", "/currencies", { ...RECENT, recencyDays: 90 });
  const isLapsed = async () => (await ask("bo", "GET", "/me/lapses")).body.map((l: { is: string }) => l.is);
  // Bo may start nothing before somebody gives a day: a first start must come from somewhere.
  expect(await isLapsed()).toEqual(["over"]);
  const today = new Date(test.hand.clock.now()).toISOString().slice(0, 10);
  for (const who of ["ada", "bo"]) await ask("di", "PUT", `/people/${who}/dates`, { [RECENT.id]: today });
  const { body } = await ask("ada", "POST", "/sessions", planBody());
  expect((await playToEnd(body.id)).stage).toBe("closed");
  const caught = (await ask("ada", "GET", `/sessions/${body.id}/events?limit=500`)).body.events.filter(
    ({ fact }: { fact: { type: string; kind?: string } }) => fact.type === "sent" && fact.kind === "caught",
  );
  // It is noted after the session was closed, and nothing of the start waits for it.
  for (let looks = 0; looks < 50; looks += 1) await settle();
  const starts = await test.services.directory.currencies.lastStarts();
  expect(starts.find((s) => s.personId === "bo")).toEqual({
    ...{ personId: "bo", post: "fireGuard", at: caught.at(-1)?.at },
  });
  const day = 24 * 3_600_000;
  await test.hand.leap(59 * day);
  expect((await claim((await another()).id, 20)).status).toBe("accepted");
  await test.hand.leap(32 * day);
  expect(await claim((await another()).id, 21)).toMatchObject({ refusal: { reason: "currencyLapsed" } });
});

it("[CUR-10] [MCN-6] a post is taken with the day on which the first currency that bars it ends, and with none where none does", async () => {
  const kind = { ...FIRE, needs: { ...FIRE.needs, fireGuard: "bars" } };
  await ask("di", "POST", "/currencies", kind);
  await ask("di", "PUT", "/people/bo/dates", { [FIRE.id]: "2026-06-02" });
  const { body } = await ask("ada", "POST", "/sessions", planBody());
  expect((await claim(body.id, 30)).status).toBe("accepted");
  const { state } = await test.services.sessions.get(body.id);
  expect(state.posts.fireGuard?.currentUntil).toBe(Date.UTC(2026, 5, 3));
  const { sessions } = test.services;
  const id = "00000000-0000-4000-8000-0000000c0031";
  await sessions.command(CREW.cockpit, {
    ...{ v: 1, id, session: body.id, clientAt: 1, action: { type: "claimPost", post: "cockpit" } },
  });
  expect((await sessions.get(body.id)).state.posts.cockpit?.currentUntil).toBeNull();
  // The condition of a clearance stands on it.
  const found = (now: number) => conditionOf("postsCurrent").find(state, 1, now).is;
  expect([found(Date.UTC(2026, 5, 3) - 1), found(Date.UTC(2026, 5, 3))]).toEqual(["yes", "no"]);
});

/** Plans another session. Sign-ins end meanwhile, so Ada signs in again. */
async function another(): Promise<{ id: string }> {
  return planned(test.app, await signIn(test.app, "ada"));
}

describe("a forgotten PIN", () => {
  const next = "90210377";
  const replace = (who: string, id: string, over: object = {}) =>
    ask(who, "PUT", `/people/${id}/pin`, { pin: PIN, next, ...over });

  it("[CUR-6] is replaced by a supervisor with their own PIN; all sign-ins of the person end", async () => {
    expect((await replace("ada", "bo")).kind).toBe("notQualified");
    expect((await replace("di", "di")).kind).toBe("ownWork");
    expect((await replace("di", "nobody")).kind).toBe("notFound");
    expect((await replace("di", "bo", { pin: "000000" })).kind).toBe("wrongPin");
    expect((await replace("di", "bo", { next: "123456" })).status).toBe(400);
    expect((await ask("bo", "GET", "/me")).status).toBe(200);
    expect((await replace("di", "bo")).status).toBe(204);
    expect((await ask("bo", "GET", "/me")).status).toBe(401);
    const device = { id: "bo-tablet", name: "Tablet" };
    const enter = (pin: string) =>
      test.app.inject({ method: "POST", url: "/api/sign-in", payload: { handle: "bo", pin, device } });
    expect((await enter(PIN)).statusCode).toBe(401);
    expect((await enter(next)).statusCode).toBe(200);
  });

  it("[CUR-6] of somebody on duty is replaced only on purpose", async () => {
    const session = (await ask("ada", "POST", "/sessions", planBody())).body.id;
    expect((await claim(session, 9)).status).toBe("accepted");
    expect((await replace("di", "bo")).kind).toBe("onDuty");
    expect((await replace("di", "bo", { confirm: true })).status).toBe(204);
  });
});
