import { randomUUID } from "node:crypto";
import { afterEach, describe, expect, it } from "vitest";
import { MemoryEventStore } from "../../server/store/memory-events.ts";
import { verify } from "../../shared/evidence/verify.ts";
import type { Action, Command } from "../../shared/protocol/commands.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import type { Person } from "../../shared/session/step.ts";
import { settle } from "../http/hand-clock.ts";
import { bearer, planned, signIn, type TestServer, testServer } from "../http/test-server.ts";
import { sha256 } from "../spec/given.ts";

const FAY: Person = { id: "fay", name: "Fay", device: "fay-tablet", mayHold: POSTS };
const BO: Person = { id: "bo", name: "Bo", device: "bo-tablet", mayHold: ["fireGuard"] };
const HOLD: Action = { type: "send", kind: "hold", channel: "panel" };
const AIRCRAFT = "CH-TST";

const servers: TestServer[] = [];
afterEach(async () => {
  for (const server of servers.splice(0)) await server.close();
});
async function server(store = new MemoryEventStore()): Promise<TestServer> {
  const made = await testServer({ store });
  servers.push(made);
  return made;
}
const plan = async (test: TestServer) => (await planned(test.app, await signIn(test.app, "fay"))).id;
const say = async (test: TestServer, session: string, action: Action, person = FAY) => {
  const command: Command = { v: 1, id: randomUUID(), session, clientAt: 1, action };
  const result = await test.services.sessions.command(person, command);
  await settle();
  return result;
};
const stateOf = async (test: TestServer, session: string) =>
  (await test.services.sessions.get(session)).state;
const take = (post: Post): Action => ({ type: "claimPost", post });
async function abandoned(test: TestServer, session: string, person = FAY) {
  await say(test, session, take("supervisor"), person);
  return say(test, session, { type: "abandon", reason: "weather" }, person);
}
async function report(test: TestServer, who: string, action: object) {
  const answer = await test.app.inject({
    method: "POST",
    url: `/api/aircraft/${AIRCRAFT}/reports`,
    headers: bearer(await signIn(test.app, who)),
    payload: { commandId: randomUUID(), action },
  });
  await settle();
  return answer.json();
}
async function standing(test: TestServer) {
  const headers = bearer(await signIn(test.app, "ed"));
  return (await test.app.inject({ url: `/api/aircraft/${AIRCRAFT}/standing`, headers })).json();
}

describe("what stands at an aircraft, on a server", () => {
  it("[STN-1] a hold outlives its session and stands in the next plan, after a restart too", async () => {
    const store = new MemoryEventStore();
    const first = await server(store);
    const session = await plan(first);
    await say(first, session, { ...HOLD, note: "fuel on the ground" });
    await abandoned(first, session);
    const second = await server(store);
    const next = await plan(second);
    expect((await stateOf(second, next)).holds).toMatchObject([
      { note: "fuel on the ground", by: { name: "Fay" } },
    ]);
  });

  it("[STN-2] a stop in one session is open in the other before the next decision there", async () => {
    const test = await server();
    const [one, other] = [await plan(test), await plan(test)];
    await say(test, one, HOLD, BO);
    expect((await stateOf(test, other)).holds).toMatchObject([{ by: { name: "Bo" } }]);
    const [hold] = (await stateOf(test, other)).holds;
    const release: Action = { type: "send", kind: "release", channel: "panel", ref: hold?.id ?? 0 };
    await say(test, other, release, BO);
    expect((await stateOf(test, one)).holds).toEqual([]);
    expect((await stateOf(test, other)).holds).toEqual([]);
    expect((await standing(test)).items).toEqual([]);
  });

  it("[STN-2] a stop from the ramp page needs no session and no post, and reaches every open session", async () => {
    const test = await server();
    const session = await plan(test);
    expect(await report(test, "ed", { type: "stop", is: "fire", engine: 2, place: "nacelle" })).toMatchObject(
      {
        status: "accepted",
      },
    );
    expect((await stateOf(test, session)).fires).toMatchObject([{ engine: 2, by: { name: "Ed" } }]);
    expect((await standing(test)).items).toMatchObject([{ item: { is: "fire", engine: 2 } }]);
  });

  it("[STN-3] a stop in a session that is over is taken into the record and stands in the next plan", async () => {
    const test = await server();
    const session = await plan(test);
    await abandoned(test, session);
    expect((await say(test, session, HOLD, BO)).status).toBe("accepted");
    expect((await stateOf(test, await plan(test))).holds).toMatchObject([{ by: { name: "Bo" } }]);
  });

  it("[STN-3] the same report sent twice stands once", async () => {
    const test = await server();
    const payload = { commandId: randomUUID(), action: { type: "stop", is: "hold" } };
    const headers = bearer(await signIn(test.app, "ed"));
    const url = `/api/aircraft/${AIRCRAFT}/reports`;
    const send = async () => (await test.app.inject({ method: "POST", url, headers, payload })).json();
    expect(await send()).toEqual(await send());
    expect((await standing(test)).items).toHaveLength(1);
  });

  it("[STN-11] what a session recorded just before a crash is in the record after the restart", async () => {
    const store = new MemoryEventStore();
    const first = await server(store);
    const session = await plan(first);
    // The server dies after the session's own event and before the record's.
    first.services.records.contribute = () => Promise.reject(new Error("died"));
    await say(first, session, HOLD);
    await abandoned(first, session);
    const second = await server(store);
    expect((await stateOf(second, await plan(second))).holds).toHaveLength(1);
  });

  it("[STN-12] the record is evidence: chained, exported and verified like a session's", async () => {
    const test = await server();
    const session = await plan(test);
    await say(test, session, HOLD);
    const { record } = await standing(test);
    const { headSeq, headHash } = (await test.services.store.session(record)) ?? { headSeq: 0, headHash: "" };
    const lines = (await test.services.store.read(record, 0, 100)).map((e) => e.body);
    const claim = { session: record, aircraft: AIRCRAFT, events: headSeq, head: headHash };
    expect(verify(lines, claim, sha256)).toMatchObject({ ok: true, events: headSeq });
    const spoilt = lines.map((line) => line.replace('"is":"hold"', '"is":"held"'));
    expect(verify(spoilt, claim, sha256).ok).toBe(false);
    const listed = await test.app.inject({
      url: "/api/sessions",
      headers: bearer(await signIn(test.app, "ed")),
    });
    expect(listed.json().map((s: { id: string }) => s.id)).toEqual([session]);
  });
});

describe("what is reported of a field, on a server", () => {
  const FLASH: Action = { type: "recordFlash", miles: 3 };

  it("[STN-13] a flash in one session counts in the other at once, and in a new plan two minutes later", async () => {
    const test = await server();
    const [one, other] = [await plan(test), await plan(test)];
    await say(test, one, take("supervisor"));
    await say(test, one, FLASH);
    expect((await stateOf(test, other)).fieldFlashes).toMatchObject([{ session: one, miles: 3 }]);
    expect((await stateOf(test, one)).fieldFlashes ?? []).toEqual([]);
    await say(test, one, { type: "abandon", reason: "lightning" });
    await test.hand.pass(120_000);
    expect((await stateOf(test, await plan(test))).fieldFlashes).toMatchObject([{ session: one, miles: 3 }]);
  });

  it("[STN-13] newer weather of one session is the weather of every other one on the field", async () => {
    const test = await server();
    const [one, other] = [await plan(test), await plan(test)];
    await say(test, one, take("supervisor"));
    await say(test, one, { type: "recordWeather", windKt: 22, gustKt: 30 });
    expect((await stateOf(test, other)).weather).toMatchObject({ windKt: 22, gustKt: 30 });
    expect((await stateOf(test, await plan(test))).weather).toMatchObject({ windKt: 22 });
  });
});
