import { randomUUID } from "node:crypto";
import { channel } from "node:diagnostics_channel";
import { readFileSync } from "node:fs";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { StoreFailure } from "../../server/store/events.ts";
import { nextDeadline } from "../../shared/session/deadline.ts";
import { GatedStore } from "../live/gated-store.ts";
import { HOLD, type LiveServer, liveServer, panelOf, type TestPanel } from "../live/panel.ts";
import { planned, signIn } from "./test-server.ts";

let server: LiveServer;
let store: GatedStore;
let session: string;
let di: TestPanel;
const TOKEN = "0123456789abcdef01234567";

beforeEach(async () => {
  store = new GatedStore();
  server = await liveServer({ store, metricsToken: TOKEN });
  session = (await planned(server.app, await signIn(server.app, "di"))).id;
  di = await panelOf(server, "di");
});
afterEach(async () => {
  di.close();
  await server.close();
});

const scrape = async () => (await server.app.inject({ url: "/metrics" })).body;
/** Returns the figure of a line of the text format, for any order of its labels. */
function figure(text: string, name: string, labels: Record<string, string> = {}): number | undefined {
  for (const line of text.split("\n")) {
    const [, found, inner = "", value] = /^(\w+)(?:\{(.*)\})? ([^ ]+)$/.exec(line) ?? [];
    if (found === name && Object.entries(labels).every(([k, v]) => inner.includes(`${k}="${v}"`)))
      return Number(value);
  }
  return undefined;
}

describe("metrics", () => {
  it("[OPS-3] count commands, refusals, appends, sockets, sessions, holds and readiness", async () => {
    await di.watch(session);
    await di.command(session, HOLD);
    const id = randomUUID();
    await di.command(session, { type: "claimPost", post: "cockpit" }, { id });
    await di.command(session, { type: "claimPost", post: "cockpit" }, { id });
    const text = await scrape();
    expect(figure(text, "chockside_commands_total", { action: "send", outcome: "accepted" })).toBe(1);
    expect(figure(text, "chockside_commands_total", { action: "claimPost", outcome: "refused" })).toBe(1);
    expect(figure(text, "chockside_commands_total", { action: "claimPost", outcome: "duplicate" })).toBe(1);
    expect(figure(text, "chockside_refusals_total", { reason: "notQualified" })).toBe(1);
    expect(figure(text, "chockside_append_seconds_count", { kept: "yes" })).toBe(3);
    expect(figure(text, "chockside_command_seconds_count")).toBe(3);
    expect(figure(text, "chockside_sockets")).toBe(1);
    expect(figure(text, "chockside_sessions_live")).toBe(1);
    expect(figure(text, "chockside_holds_open")).toBe(1);
    expect(figure(text, "chockside_ready")).toBe(1);
    store.broken = true;
    await di.command(session, HOLD);
    const after = await scrape();
    expect(figure(after, "chockside_ready")).toBe(0);
    expect(figure(after, "chockside_append_seconds_count", { kept: "no" })).toBe(1);
    expect(figure(after, "chockside_commands_total", { action: "send", outcome: "failed" })).toBe(1);
  });

  it("[OPS-20] name the version, as the API's description does", async () => {
    const { version } = JSON.parse(readFileSync(new URL("../../package.json", import.meta.url), "utf8"));
    expect(figure(await scrape(), "chockside_build_info", { version })).toBe(1);
    const { info } = (await server.app.inject({ url: "/docs/json" })).json();
    expect(info.version).toBe(version);
  });

  it("[OPS-3] need no database", async () => {
    await di.watch(session);
    await di.command(session, HOLD);
    for (const method of ["openHeads", "openSessions", "session", "sessions", "read", "probe"] as const)
      vi.spyOn(store, method).mockRejectedValue(new StoreFailure("the database is away"));
    const answer = await server.app.inject({ url: "/metrics" });
    expect(answer.statusCode).toBe(200);
    expect(figure(answer.body, "chockside_ready")).toBe(0);
    expect(figure(answer.body, "chockside_sessions_live")).toBe(1);
    expect(figure(answer.body, "chockside_holds_open")).toBe(1);
  });

  it("[OPS-3] count deadlines, and those that came late", async () => {
    const [ada, bo] = [await panelOf(server, "ada"), await panelOf(server, "bo")];
    await ada.command(session, { type: "claimPost", post: "cockpit" });
    await bo.command(session, { type: "claimPost", post: "fireGuard" });
    const held = () => bo.command(session, HOLD);
    const untilDue = async () =>
      (nextDeadline((await server.services.sessions.get(session)).state) ?? 0) - server.hand.clock.now();
    await held();
    await server.hand.pass(await untilDue());
    const [punctual, inTime] = [await scrape(), "chockside_deadlines_total"];
    expect(figure(punctual, inTime)).toBeGreaterThan(0);
    expect(figure(punctual, "chockside_deadlines_late_total")).toBe(0);
    // The machine was asleep.
    await held();
    await server.hand.leap((await untilDue()) + 5_000);
    ada.close();
    bo.close();
    const text = await scrape();
    expect(figure(text, inTime)).toBeGreaterThan(figure(punctual, inTime) ?? 0);
    expect(figure(text, "chockside_deadlines_late_total")).toBeGreaterThan(0);
  });

  it("[OPS-4] name nobody and no session, and are for this machine or the token alone", async () => {
    await di.command(session, HOLD);
    const text = await scrape();
    for (const secret of ["di-tablet", '"di"', "Di", session, "CH-TST"]) expect(text).not.toContain(secret);
    const ask = async (remoteAddress: string, headers: Record<string, string> = {}) =>
      (await server.app.inject({ url: "/metrics", remoteAddress, headers })).statusCode;
    expect(await ask("127.0.0.1")).toBe(200);
    expect(await ask("::1")).toBe(200);
    expect(await ask("::ffff:127.0.0.1")).toBe(200);
    expect(await ask("192.0.2.7")).toBe(401);
    expect(await ask("127.0.0.1", { "x-forwarded-for": "192.0.2.7" })).toBe(401);
    for (const header of [
      "x-real-ip",
      "x-forwarded-host",
      "forwarded",
      "via",
      "x-client-ip",
      "cf-connecting-ip",
      "true-client-ip",
    ])
      expect(await ask("127.0.0.1", { [header]: "192.0.2.7" }), header).toBe(401);
    expect(await ask("127.0.0.1", { host: "ramp-box" })).toBe(401);
    expect(await ask("127.0.0.1", { host: "127.0.0.1:4380" })).toBe(200);
    expect(await ask("192.0.2.7", { authorization: `Bearer ${TOKEN}` })).toBe(200);
    expect(await ask("192.0.2.7", { authorization: `Bearer ${TOKEN}x` })).toBe(401);
  });
});

describe("traces", () => {
  it("[OPS-5] follow a command to its append and to the panels by its id, and name nobody", async () => {
    const heard: Record<string, unknown>[] = [];
    const listen = (name: string) => {
      const to = channel(`chockside:${name}`);
      const listener = (message: unknown) => heard.push({ name, ...(message as object) });
      to.subscribe(listener);
      return () => to.unsubscribe(listener);
    };
    const stops = ["command", "append", "fanOut"].map(listen);
    await di.watch(session);
    const id = randomUUID();
    await di.command(session, HOLD, { id });
    for (const stop of stops) stop();
    const ms = expect.any(Number);
    expect(heard.slice(0, 3)).toEqual([
      { name: "append", session, from: 2, to: expect.any(Number), commands: [id], kept: true, ms },
      { name: "fanOut", session, from: 2, to: expect.any(Number), sockets: 1 },
      { name: "command", session, command: id, action: "send", outcome: "accepted", reason: null, ms },
    ]);
    expect(JSON.stringify(heard)).not.toMatch(/"Di"|di-tablet/);
  });
});
