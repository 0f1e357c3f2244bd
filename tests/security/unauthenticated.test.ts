import { channel } from "node:diagnostics_channel";
import { Writable } from "node:stream";
import { pino } from "pino";
import { afterEach, describe, expect, it, vi } from "vitest";
import { WebSocket } from "ws";
import { Refusals } from "../../server/audit.ts";
import { LIMITS } from "../../server/live/limits.ts";
import { networkOf } from "../../server/peer.ts";
import { PROTOCOL } from "../../shared/protocol/version.ts";
import { planned, signIn, type TestOptions } from "../http/test-server.ts";
import { HOLD, type LiveServer, liveServer, panelOf, TestPanel } from "../live/panel.ts";

let server: LiveServer;
const lines: string[] = [];
const turnedAway: string[] = [];
const listen = (message: unknown) => turnedAway.push((message as { what: string }).what);
const refused = channel("chockside:refused");

/** Opens a server that writes its log into `lines` and counts its look-ups of sign-ins. */
async function open(options: TestOptions = {}) {
  const to = new Writable({
    write(chunk, _encoding, done) {
      lines.push(...String(chunk).trim().split("\n"));
      done();
    },
  });
  server = await liveServer({ logger: pino({ level: "warn" }, to), ...options });
  refused.subscribe(listen);
  return vi.spyOn(server.services.directory, "signInByToken");
}
afterEach(async () => {
  refused.unsubscribe(listen);
  lines.length = 0;
  turnedAway.length = 0;
  await server.close();
});

interface Raw {
  ws: WebSocket;
  heard: string[];
  closed: Promise<void>;
}

/** Opens a socket that speaks Engine.IO by hand. Resolves once it is open and has its first packet, or was refused. */
async function raw(localAddress = "127.0.0.1", headers: Record<string, string> = {}): Promise<Raw> {
  const ws = new WebSocket(`${server.url.replace("http", "ws")}/live/?EIO=4&transport=websocket`, {
    localAddress,
    headers,
  });
  const heard: string[] = [];
  ws.on("message", (data) => heard.push(String(data)));
  ws.on("error", () => {});
  const closed = new Promise<void>((resolve) => ws.once("close", () => resolve()));
  await Promise.race([new Promise((resolve) => ws.once("message", resolve)), closed]);
  return { ws, heard, closed };
}

const connectPacket = (token: string) => `40${JSON.stringify({ token, proto: PROTOCOL })}`;
const nobodys = (n: number) => String(n).padStart(43, "A");

describe("a socket that is refused", () => {
  it("[SEC-21] is told why and closed, whatever it sends after that, without another look-up", async () => {
    const lookUps = await open();
    const { ws, heard, closed } = await raw();
    ws.send(connectPacket(nobodys(0)));
    await closed;
    expect(heard.filter((h) => h.startsWith("44"))).toHaveLength(1);
    expect(heard.at(-1)).toContain("signInNeeded");
    expect(lookUps).toHaveBeenCalledTimes(1);
  });

  it.each<[string, (n: number) => string, number]>([
    ["asks again and again", (n) => connectPacket(nobodys(n)), 1],
    ["asks for another namespace", () => `40/admin,{}`, 0],
    ["brings a heap of bytes", (n) => connectPacket(nobodys(n).repeat(200)), 0],
    ["sends commands first", () => `42["command",{}]`, 0],
    ["is no packet of ours", () => "garbage", 0],
    ["says pong without being asked", () => "3", 0],
  ])(
    "[SEC-21] and %s a thousand times is cut: one look-up at most, a line of each kind in the log",
    async (_what, say, most) => {
      const lookUps = await open();
      const { ws, closed, heard } = await raw();
      for (let n = 0; n < 1_000; n += 1) ws.send(say(n));
      await closed;
      expect(lookUps.mock.calls.length).toBeLessThanOrEqual(most);
      expect(heard.length).toBeLessThanOrEqual(2);
      expect(lines.length).toBeLessThanOrEqual(most + 1);
    },
  );

  it("[SEC-21] [SEC-12] harms nobody else: a flood of them is counted in full, looked up in part, and logged once", async () => {
    const lookUps = await open();
    const session = (await planned(server.app, await signIn(server.app, "fay"))).id;
    const bo = await panelOf(server, "bo");
    lookUps.mockClear();
    const tries = 2 * LIMITS.failedBurst;
    for (let done = 0; done < tries; done += 50)
      await Promise.all(
        Array.from({ length: 50 }, async (_, n) => {
          const { ws, closed } = await raw("127.0.0.7");
          if (ws.readyState === ws.OPEN)
            for (let i = 0; i < 10; i += 1) ws.send(connectPacket(nobodys(done + n)));
          await closed;
        }),
      );
    expect(lookUps.mock.calls.length).toBeLessThanOrEqual(LIMITS.failedBurst + 50);
    expect(turnedAway.length).toBeGreaterThanOrEqual(tries);
    // One line for each kind of refusal from that one address.
    expect(lines.length).toBeLessThanOrEqual(new Set(turnedAway).size);
    // People already signed in continue, and another address is let in.
    expect((await bo.command(session, HOLD)).status).toBe("accepted");
    const ada = await panelOf(server, "ada");
    expect((await ada.command(session, HOLD)).status).toBe("accepted");
    // The failures are forgotten after a time.
    await server.hand.pass((LIMITS.failedBurst / LIMITS.failedPerSecond) * 1_000);
    expect((await raw("127.0.0.7")).ws.readyState).toBe(WebSocket.OPEN);
    ada.close();
    bo.close();
  });
});

describe("sockets that stay open without a sign-in", () => {
  it("[SEC-5] from forty addresses hold no more places than are theirs, and a crew comes in beside them", async () => {
    await open({ proxies: ["127.0.0.1"] });
    const token = await signIn(server.app, "fay");
    const { id } = await planned(server.app, token);
    const opened: Raw[] = [];
    for (let address = 1; address <= 40; address += 1)
      opened.push(
        ...(await Promise.all(
          Array.from({ length: 20 }, () => raw("127.0.0.1", { "x-forwarded-for": `192.0.2.${address}` })),
        )),
      );
    const open_ = () => opened.filter(({ ws }) => ws.readyState === WebSocket.OPEN).length;
    const from = { "x-forwarded-for": "198.51.100.9" };
    const panel = await new TestPanel(server.url, { token, proto: PROTOCOL }, from).settled();
    expect(panel.socket.connected).toBe(true);
    expect((await panel.command(id, HOLD)).status).toBe("accepted");
    expect(open_()).toBeLessThanOrEqual(LIMITS.unauthenticated);
    expect(open_()).toBeGreaterThan(LIMITS.unauthenticated / 2);
    panel.close();
    for (const { ws } of opened) ws.terminate();
  });

  it("[SEC-5] at one address give way, after a second, to a newcomer from there; the newest is not driven out", async () => {
    await open();
    const token = await signIn(server.app, "ada");
    const opened: Raw[] = [];
    for (let n = 0; n < LIMITS.unauthenticatedPerAddress; n += 1) opened.push(await raw());
    const come = () => new TestPanel(server.url, { token, proto: PROTOCOL }).settled();
    expect((await come()).socket.connected).toBe(false);
    await server.hand.pass(LIMITS.unauthenticatedMs);
    const panel = await come();
    expect(panel.socket.connected).toBe(true);
    await opened[0]?.closed;
    expect(opened.filter(({ ws }) => ws.readyState === WebSocket.OPEN)).toHaveLength(
      LIMITS.unauthenticatedPerAddress - 1,
    );
    panel.close();
    for (const { ws } of opened) ws.terminate();
  });

  it.each([
    ["192.0.2.1", "192.0.2.1"],
    ["::ffff:192.0.2.1", "192.0.2.1"],
    ["2001:db8:0:1::9", "2001:db8:0:1::/64"],
    ["2001:db8:0:1:ffff:ffff:ffff:ffff", "2001:db8:0:1::/64"],
    ["2001:DB8::1", "2001:db8:0:0::/64"],
    ["fe80::1%eth0", "fe80:0:0:0::/64"],
    ["::1", "0:0:0:0::/64"],
  ])("[SEC-5] are told apart by their network: %s is of %s", (address, network) => {
    expect(networkOf(address)).toBe(network);
  });
});

describe("refusals in the log", () => {
  it("[SEC-12] of one kind from one source are one line a minute; of any number of sources, a bounded number", () => {
    const said: { audit?: string }[] = [];
    let now = 0;
    const refusals = new Refusals({ warn: (detail) => said.push(detail) }, () => now);
    for (let n = 0; n < 1_000; n += 1)
      refusals.refused("wrongSignIn", { address: "192.0.2.1", path: `/${n}` });
    for (let n = 0; n < 1_000; n += 1)
      refusals.refused("wrongSignIn", { address: `2001:db8::${n.toString(16)}` });
    refusals.refused("tooMany", { person: "ada", address: "192.0.2.1" });
    expect(said.map((s) => s.audit)).toEqual(["wrongSignIn", "wrongSignIn", "tooMany"]);
    for (let n = 0; n < 10_000; n += 1)
      refusals.refused("wrongSignIn", { address: `10.${n >> 16}.${(n >> 8) & 255}.${n & 255}` });
    expect(said).toHaveLength(500);
    now = 60_000;
    refusals.refused("wrongSignIn", { address: "192.0.2.1" });
    expect(said.slice(500)).toEqual([
      { audit: "refusals", more: 999 + 999 + 10_000 - 497 },
      { audit: "wrongSignIn", address: "192.0.2.1" },
    ]);
  });
});
