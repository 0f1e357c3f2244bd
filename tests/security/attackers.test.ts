import { Writable } from "node:stream";
import { pino } from "pino";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { createApp } from "../../server/app.ts";
import { LOG_OPTIONS } from "../../server/log.ts";
import { PROTOCOL } from "../../shared/protocol/version.ts";
import { TestDevice } from "../http/device-key.ts";
import { bearer, PIN, planned, signIn } from "../http/test-server.ts";
import { HOLD, type LiveServer, liveServer, panelOf, TestPanel } from "../live/panel.ts";

const HOUR = 3_600_000;

let server: LiveServer;
beforeEach(async () => {
  server = await liveServer();
});
afterEach(() => server.close());

describe("somebody who guesses", () => {
  it("[AUT-2] can try fewer than 120 of a million PINs of one person in a day, from any number of devices", async () => {
    const tried = { wrong: 0, locked: 0 };
    const end = server.hand.clock.now() + 24 * HOUR;
    for (let n = 0; server.hand.clock.now() < end; n += 1) {
      const reply = await server.app.inject({
        method: "POST",
        url: "/api/sign-in",
        payload: { handle: "ada", pin: "000000", device: { id: `d${n}`, name: "T" } },
      });
      if (reply.statusCode === 401) tried.wrong += 1;
      else {
        tried.locked += 1;
        await server.hand.leap(Number(reply.headers["retry-after"]) * 1_000);
      }
    }
    expect(tried.locked).toBeGreaterThan(50);
    expect(tried.wrong).toBeLessThan(120);
  });

  it("[AUT-2] tries one PIN on everybody and locks the device", async () => {
    const codes: number[] = [];
    for (const handle of ["ada", "bo", "cy", "di", "ed", "fay", "gone"]) {
      const payload = { handle, pin: "000000", device: { id: "mine", name: "T" } };
      codes.push((await server.app.inject({ method: "POST", url: "/api/sign-in", payload })).statusCode);
    }
    expect(codes).toEqual([401, 401, 401, 401, 401, 429, 429]);
  });
});

describe("somebody signed in", () => {
  it("[SEC-7] hears nothing of a session they do not watch, and reaches nothing in it from another", async () => {
    const token = await signIn(server.app, "fay");
    const [mine, other] = [await planned(server.app, token), await planned(server.app, token)];
    const [ada, bo] = [await panelOf(server, "ada"), await panelOf(server, "bo")];
    await ada.watch(mine.id);
    await bo.watch(other.id);
    const hold = await bo.command(other.id, HOLD);
    const seq = (hold as { seq: number }).seq;
    await ada.command(mine.id, { type: "send", kind: "release", ref: seq, channel: "panel" });
    await ada.exchange();
    expect(ada.heard.filter((e) => e.session !== mine.id)).toEqual([]);
    expect(ada.beats.filter((b) => b.session !== mine.id)).toEqual([]);
    expect((await server.services.sessions.get(other.id)).state.holds.map((h) => h.id)).toEqual([seq]);
    ada.close();
    bo.close();
  });

  it("[SEC-8] gains nothing by a forged time: the record's is the server's, and what is too late stays so", async () => {
    const { id } = await planned(server.app, await signIn(server.app, "fay"));
    const ada = await panelOf(server, "ada");
    await ada.watch(id);
    for (const clientAt of [0, 1, 8.64e15]) {
      const answer = await ada.command(id, HOLD, { clientAt });
      expect(answer.status).toBe("accepted");
    }
    expect(new Set(ada.heard.map((e) => e.at))).toEqual(new Set([server.hand.clock.now()]));
    const now = server.hand.clock.now();
    const claim = { type: "claimPost", post: "cockpit" };
    // Late by the server's clock, whatever the panel's clock says.
    const late = await ada.command(id, claim, { clientAt: now - HOUR, validUntil: now - 1 });
    expect(late).toMatchObject({ status: "refused", refusal: { reason: "tooLate" } });
    ada.close();
  });

  it("[SEC-7] cannot change identity: no field of a message names the sender", async () => {
    const { id } = await planned(server.app, await signIn(server.app, "fay"));
    const ada = await panelOf(server, "ada");
    for (const over of [{ actor: { id: "di" } }, { person: "di" }, { by: "di" }, { at: 1 }, { seq: 1 }])
      expect(await ada.command(id, HOLD, over)).toMatchObject({ error: "malformed" });
    await ada.watch(id);
    await ada.command(id, HOLD);
    const said = ada.heard.find((e) => e.fact.type === "sent");
    expect(said?.actor).toMatchObject({ id: "ada", device: "ada-tablet" });
    ada.close();
  });
});

describe("the log", () => {
  it("[SEC-12] [SEC-15] [SRV-15] says who came and went, who was refused what, from where, and what the office did; and holds no PIN, token, proof or code", async () => {
    const said: string[] = [];
    const lines = new Writable({
      write(chunk, _encoding, done) {
        said.push(String(chunk));
        done();
      },
    });
    const app = await createApp(server.services, {
      logger: pino({ ...LOG_OPTIONS, level: "trace" }, lines),
      site: "/nowhere",
      perMinute: { signIns: 100, address: 100_000, signIn: 100_000, costly: 100_000 },
      proxies: ["127.0.0.1"],
      live: { origins: [] },
      tls: null,
    });
    await app.listen({ port: 0, host: "127.0.0.1" });
    const url = `http://127.0.0.1:${(app.server.address() as { port: number }).port}`;
    const wrong = "314159";
    const attempt = { handle: "ada", pin: wrong, device: { id: "d1", name: "T" } };
    await app.inject({ method: "POST", url: "/api/sign-in", payload: attempt });
    await app.inject({ method: "POST", url: "/api/sign-in", payload: { handle: wrong } });
    // A feature that this server was not set up for is no fault of the server, and writes no line to the log.
    await app.inject({ method: "POST", url: "/api/sign-in/passkey/options" });
    const di = await signIn(app, "di");
    const code = (
      await app.inject({
        method: "POST",
        url: "/api/devices/codes",
        headers: bearer(di),
        payload: { name: "T4" },
      })
    ).json().code;
    const device = await TestDevice.make();
    const id = await device.enrol(app, code);
    const bound = await device.signIn(app, "ada", PIN);
    await app.inject({ url: "/api/me", headers: bearer(bound) });
    await device.send(app, "GET", "/api/devices", { token: bound });
    await app.inject({ method: "POST", url: `/api/devices/${id}/revocation`, headers: bearer(di) });
    const forged = "F".repeat(43);
    const evil = { origin: "https://evil.example", "x-forwarded-for": "192.0.2.7" };
    for (const [auth, headers] of [
      [{ token: forged, proto: PROTOCOL }, {}],
      [{ token: di, proto: PROTOCOL, proof: "p".repeat(50) }, {}],
      [{ token: di, proto: PROTOCOL }, evil],
    ] as const)
      (await new TestPanel(url, auth, headers).settled()).close();
    const [own] = (await app.inject({ url: "/api/me/sign-ins", headers: bearer(di) })).json();
    const cy = await signIn(app, "cy");
    await app.inject({ method: "POST", url: "/api/sign-out", headers: bearer(cy) });
    await app.inject({ method: "DELETE", url: `/api/me/sign-ins/${own.id}`, headers: bearer(di) });
    await app.close();

    const told = said.map((s) => JSON.parse(s));
    expect(told.filter(({ level }) => level >= 50)).toEqual([]);
    const audits = told.filter((l) => l.audit !== undefined);
    expect(audits.map((l) => [l.audit, l.person ?? null, l.path ?? null])).toEqual([
      ["wrongSignIn", null, "/api/sign-in"],
      ["malformed", null, "/api/sign-in"],
      ["signedIn", "di", null],
      ["codeGiven", "di", null],
      ["enrolled", null, null],
      ["signedIn", "ada", null],
      ["proofNeeded", null, "/api/me"],
      ["notQualified", "ada", "/api/devices"],
      ["revoked", "di", null],
      ["signInNeeded", null, "/live"],
      ["wrongOrigin", null, "/live"],
      ["signedIn", "cy", null],
      ["signedOut", "cy", null],
      ["signInEnded", "di", `sign-ins/${own.id}`],
    ]);
    const inside = ["codeGiven", "revoked", "signedOut", "signInEnded"];
    for (const line of audits.filter((l) => !inside.includes(l.audit)))
      expect(line.address).toBe(line.audit === "wrongOrigin" ? "192.0.2.7" : "127.0.0.1");
    const all = said.join("");
    for (const secret of [
      wrong,
      PIN,
      di,
      bound,
      forged,
      code,
      code.replaceAll("-", ""),
      "p".repeat(50),
      "eyJ",
    ])
      expect(all).not.toContain(secret);
    expect(all.length).toBeGreaterThan(2_000);
  });
});
