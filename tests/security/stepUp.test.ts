import { randomUUID } from "node:crypto";
import { Writable } from "node:stream";
import { pino } from "pino";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { createApp } from "../../server/app.ts";
import { Permits } from "../../server/auth/permits.ts";
import { LOG_OPTIONS } from "../../server/log.ts";
import type { Action } from "../../shared/protocol/commands.ts";
import { HandClock } from "../http/hand-clock.ts";
import { bearer, PIN, planned, signIn } from "../http/test-server.ts";
import { HOLD, type LiveServer, liveServer, panelOf, type TestPanel } from "../live/panel.ts";

const ASIDE: Action = { type: "override", condition: "brakesSet", engine: 3, reason: "as agreed" };
const NEEDED = { status: "error", error: "pinNeeded" };
/** The command passed the PIN check: here the rules refuse it for other reasons and record that. */
const HEARD = { status: "refused", refusal: { reason: "wrongPost" } };
const WRONG = "314159";

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

const tokenOf = (panel: TestPanel) => (panel.socket.auth as { token: string }).token;
const confirm = (panel: TestPanel, command: string, pin = PIN, of = session) =>
  server.app.inject({
    method: "POST",
    url: "/api/confirm",
    headers: bearer(tokenOf(panel)),
    payload: { pin, session: of, command },
  });
const permitFor = async (panel: TestPanel, command: string, of = session): Promise<string> =>
  (await confirm(panel, command, PIN, of)).json().permit;
const recorded = async (id: string) =>
  (await server.services.store.read(session, 0, 1_000)).filter((e) => e.command === id);

describe("setting a condition aside", () => {
  it("[OVR-6] is rejected without the PIN, and leaves nothing on the record", async () => {
    const id = randomUUID();
    for (const permit of [undefined, "", "p".repeat(54), Buffer.alloc(40).toString("base64url")])
      expect(await ada.command(session, ASIDE, { id, permit })).toMatchObject(NEEDED);
    expect(await recorded(id)).toEqual([]);
    expect(await ada.command(session, ASIDE, { id, permit: await permitFor(ada, id) })).toMatchObject(HEARD);
    expect(await recorded(id)).toHaveLength(1);
  });

  it("[OVR-6] needs a permit for exactly that command, session and sign-in, valid for a minute", async () => {
    const [id, other] = [randomUUID(), randomUUID()];
    const elsewhere = (await planned(server.app, await signIn(server.app, "fay"))).id;
    const again = await panelOf(server, "ada");
    const bo = await panelOf(server, "bo");
    const stolen = [
      await permitFor(ada, other),
      await permitFor(ada, id, elsewhere),
      await permitFor(again, id),
      await permitFor(bo, id),
    ];
    for (const permit of stolen)
      expect(await ada.command(session, ASIDE, { id, permit })).toMatchObject(NEEDED);
    const good = await permitFor(ada, id);
    await server.hand.leap(60_000);
    expect(await ada.command(session, ASIDE, { id, permit: good })).toMatchObject(NEEDED);
    again.close();
    bo.close();
  });

  it("[OVR-6] [LIV-5] acts once by one permit; the same again gets the same answer, also when the permit is over", async () => {
    const id = randomUUID();
    const permit = await permitFor(ada, id);
    const first = await ada.command(session, ASIDE, { id, permit });
    expect(first).toMatchObject(HEARD);
    await server.hand.leap(120_000);
    expect(await ada.command(session, ASIDE, { id })).toMatchObject({ status: "duplicate" });
    const another = { ...ASIDE, engine: 1 };
    expect(await ada.command(session, another, { id, permit })).toMatchObject({
      refusal: { reason: "idReused" },
    });
    expect((await recorded(id)).filter((e) => e.type === "overrideAsked")).toEqual([]);
  });

  it("[OVR-6] [CLU-1] any server under the same secret knows the permit whole, none under another", () => {
    const hand = new HandClock();
    const what = { signIn: "s", session: "x", command: "c" };
    const secret = Buffer.alloc(32, "chance");
    const { permit } = new Permits(secret, hand.clock).issue(what);
    const other = new Permits(secret, hand.clock);
    expect(other.isGood(permit, what)).toBe(true);
    const bytes = Buffer.from(permit, "base64url");
    for (const at of bytes.keys()) {
      const spoilt = Buffer.from(bytes);
      spoilt[at] = (spoilt[at] ?? 0) ^ 1;
      expect(other.isGood(spoilt.toString("base64url"), what)).toBe(false);
    }
    expect(new Permits(Buffer.alloc(32, "other"), hand.clock).isGood(permit, what)).toBe(false);
  });

  it("[AUT-9] a PIN guessed there counts as one guessed at sign-in, and stops go on meanwhile", async () => {
    const codes: number[] = [];
    for (let n = 0; n < 6; n += 1) codes.push((await confirm(ada, randomUUID(), WRONG)).statusCode);
    expect(codes).toEqual([403, 403, 403, 403, 403, 429]);
    const payload = { handle: "ada", pin: PIN, device: { id: "other", name: "T" } };
    const there = await server.app.inject({ method: "POST", url: "/api/sign-in", payload });
    expect([there.statusCode, there.headers["retry-after"]]).toEqual([429, "30"]);
    expect(await ada.command(session, HOLD)).toMatchObject({ status: "accepted" });
    await server.hand.leap(30_000);
    expect((await confirm(ada, randomUUID())).statusCode).toBe(200);
  });

  it("[AUT-9] [SEC-12] the PIN is in no command, no record and no line of the log; who was refused is", async () => {
    const said: string[] = [];
    const lines = new Writable({
      write(chunk, _encoding, done) {
        said.push(String(chunk));
        done();
      },
    });
    const logger = pino({ ...LOG_OPTIONS, level: "trace" }, lines);
    const app = await createApp(server.services, {
      logger,
      site: "/nowhere",
      perMinute: { signIns: 100, address: 100_000, signIn: 100_000, costly: 100_000 },
      proxies: [],
      live: { origins: [] },
      tls: null,
    });
    await app.listen({ port: 0, host: "127.0.0.1" });
    const url = `http://127.0.0.1:${(app.server.address() as { port: number }).port}`;
    const panel = await panelOf({ ...server, app, url }, "ada");
    const id = randomUUID();
    const ask = (pin: string) =>
      app.inject({
        method: "POST",
        url: "/api/confirm",
        headers: bearer(tokenOf(panel)),
        payload: { pin, session, command: id },
      });
    await ask(WRONG);
    await panel.command(session, ASIDE, { id });
    const { permit } = (await ask(PIN)).json();
    await panel.command(session, ASIDE, { id, permit });
    expect(await panel.command(session, ASIDE, { id: randomUUID(), pin: PIN })).toMatchObject({
      error: "malformed",
    });
    panel.close();
    await app.close();
    const audits = said.map((s) => JSON.parse(s)).filter((l) => l.audit !== undefined);
    expect(audits.map((l) => [l.audit, l.person])).toEqual([
      ["signedIn", "ada"],
      ["wrongPin", "ada"],
      ["pinNeeded", "ada"],
      ["confirmed", "ada"],
      ["malformed", "ada"],
    ]);
    const record = (await server.services.store.read(session, 0, 1_000)).map((e) => e.body).join("");
    expect(record).toContain(id);
    for (const secret of [PIN, WRONG, permit]) {
      expect(said.join("")).not.toContain(secret);
      expect(record).not.toContain(secret);
    }
  });
});
