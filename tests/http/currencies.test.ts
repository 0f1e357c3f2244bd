import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { FIRE, RECENT } from "../spec/equipped.ts";
import { bearer, NO_CREW, PIN, planBody, signIn, type TestServer, testServer } from "./test-server.ts";

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
