import { randomUUID } from "node:crypto";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { readSealed } from "../../shared/evidence/read.ts";
import type { Action } from "../../shared/protocol/commands.ts";
import { planned, signIn } from "../http/test-server.ts";
import { GatedStore } from "./gated-store.ts";
import { HOLD, type LiveServer, liveServer, panelOf, type TestPanel } from "./panel.ts";

const CLAIM: Action = { type: "claimPost", post: "cockpit" };

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
});
afterEach(async () => {
  ada.close();
  bo.close();
  await server.close();
});

const log = async () =>
  (await store.read(session, 0, 10_000)).map((e) => readSealed(server.services.names.reveal(e.body)).event);
const bearing = async (id: string) => (await log()).filter((e) => e.command === id);

describe("a command", () => {
  it("[LIV-4] is answered only after it is recorded and broadcast", async () => {
    await bo.watch(session);
    store.shut();
    let answered = false;
    const answer = ada.command(session, CLAIM).then((result) => {
      answered = true;
      return result;
    });
    // Both have since exchanged a message with the server, so an early answer or event would have arrived.
    await ada.exchange();
    await bo.exchange();
    expect([answered, bo.heard, await log()]).toEqual([false, [], expect.objectContaining({ length: 1 })]);
    store.open();
    expect(await answer).toEqual({ status: "accepted", seq: 2 });
    expect((await log()).map((e) => e.fact.type)).toEqual(["planned", "postTaken"]);
    await bo.until(() => bo.heard.length > 0);
    expect(bo.heard[0]).toEqual((await log())[1]);
  });

  it("[LIV-4] sent by a watcher reaches it as an event before the answer", async () => {
    await ada.watch(session);
    const result = await ada.command(session, CLAIM);
    expect(result).toMatchObject({ status: "accepted" });
    expect(ada.heard.map((e) => e.seq)).toContain("seq" in result ? result.seq : null);
  });

  it("[LIV-4] is broadcast once to each panel that watches, and to no other", async () => {
    const cy = await panelOf(server, "cy");
    await bo.watch(session);
    await bo.watch(session, 1);
    await ada.command(session, CLAIM);
    await bo.exchange();
    await cy.exchange();
    expect(bo.heard.map((e) => e.seq)).toEqual([2]);
    expect(cy.heard).toEqual([]);
    cy.close();
  });

  it("[LIV-4] waits for nothing but its own session", async () => {
    const other = (await planned(server.app, await signIn(server.app, "fay", "x"))).id;
    const commands = await Promise.all(
      [session, other].flatMap((s) => Array.from({ length: 10 }, () => ada.command(s, HOLD))),
    );
    for (const result of commands) expect(result).toMatchObject({ status: "accepted" });
  });

  it("[LIV-13] in a batch is decided in the order of arrival, and the batch is one append", async () => {
    store.shut();
    const first = ada.command(session, HOLD);
    await ada.exchange();
    const before = store.appends;
    const pile = [1, 2, 3, 4].map((n) => ada.command(session, { ...HOLD, note: `hold ${n}` } as Action));
    await ada.exchange();
    store.open();
    const seqs = (await Promise.all([first, ...pile])).map((r) => ("seq" in r ? r.seq : null));
    expect(seqs).toEqual([...seqs].sort((a, b) => Number(a) - Number(b)));
    const notes = (await log()).flatMap((e) => (e.fact.type === "sent" && e.fact.note ? [e.fact.note] : []));
    expect(notes).toEqual(["hold 1", "hold 2", "hold 3", "hold 4"]);
    expect(store.appends - before).toBe(2);
  });

  it("[REF-2] that is refused is answered with its reason and recorded", async () => {
    const result = await ada.command(session, { type: "leavePost", post: "cockpit" });
    expect(result).toMatchObject({ status: "refused", seq: 2, refusal: { reason: "wrongPost" } });
    expect((await log()).at(-1)?.fact).toMatchObject({ type: "refused" });
  });
});

describe("a command sent again", () => {
  it("[WIR-6, LIV-5] acts once and is answered as the first time", async () => {
    const id = randomUUID();
    expect(await ada.command(session, CLAIM, { id })).toEqual({ status: "accepted", seq: 2 });
    expect(await ada.command(session, CLAIM, { id })).toEqual({ status: "duplicate", seq: 2 });
    expect(await ada.command(session, CLAIM, { id, clientAt: 99 })).toEqual({ status: "duplicate", seq: 2 });
    expect(await bearing(id)).toHaveLength(1);
  });

  it("[WIR-6, LIV-5] acts once also when both are under way at once", async () => {
    const id = randomUUID();
    store.shut();
    const both = [ada.command(session, CLAIM, { id }), ada.command(session, CLAIM, { id })];
    await ada.exchange();
    store.open();
    expect((await Promise.all(both)).map((r) => r.status).sort()).toEqual(["accepted", "duplicate"]);
    expect(await bearing(id)).toHaveLength(1);
  });

  it("[LIV-5] gets the same refusal, although it would be accepted now", async () => {
    const id = randomUUID();
    const refused = await ada.command(session, { type: "leavePost", post: "cockpit" }, { id });
    await ada.command(session, CLAIM);
    expect(await ada.command(session, { type: "leavePost", post: "cockpit" }, { id })).toEqual({
      status: "duplicate",
      seq: "seq" in refused && refused.seq,
      refusal: "refusal" in refused && refused.refusal,
    });
    expect((await server.services.sessions.get(session)).state.posts.cockpit?.id).toBe("ada");
  });

  it("[WIR-6, LIV-5] with other content under the same id is refused and not recorded", async () => {
    const id = randomUUID();
    await ada.command(session, CLAIM, { id });
    const head = (await log()).length;
    expect(await ada.command(session, HOLD, { id })).toEqual({
      status: "refused",
      seq: null,
      refusal: { reason: "idReused" },
    });
    expect(await log()).toHaveLength(head);
  });

  it("[LIV-5] is recognised after a restart", async () => {
    const [good, bad] = [randomUUID(), randomUUID()];
    const accepted = await ada.command(session, CLAIM, { id: good });
    const refused = await bo.command(session, CLAIM, { id: bad });
    const next = await liveServer({ store });
    const [ada2, bo2] = [await panelOf(next, "ada"), await panelOf(next, "bo")];
    expect(await ada2.command(session, CLAIM, { id: good })).toEqual({ ...accepted, status: "duplicate" });
    expect(await bo2.command(session, CLAIM, { id: bad })).toEqual({ ...refused, status: "duplicate" });
    ada2.close();
    bo2.close();
    await next.close();
  });
});

describe("a command after its time", () => {
  it("[REF-4] is refused, but a stop is still accepted", async () => {
    const validUntil = server.hand.clock.now() - 1;
    expect(await ada.command(session, CLAIM, { validUntil })).toMatchObject({
      status: "refused",
      refusal: { reason: "tooLate" },
    });
    expect(await ada.command(session, HOLD, { validUntil })).toMatchObject({ status: "accepted" });
  });
});
