import { connect, type Socket } from "node:net";
import { afterEach, describe, expect, it } from "vitest";
import { DOOR } from "../../server/door.ts";
import { PROTOCOL } from "../../shared/protocol/version.ts";
import { planned, signIn, type TestOptions } from "../http/test-server.ts";
import { HOLD, type LiveServer, liveServer, TestPanel } from "../live/panel.ts";

let server: LiveServer;
const opened: Socket[] = [];
afterEach(async () => {
  for (const socket of opened.splice(0)) socket.destroy();
  await server.close();
});
const open = async (options: TestOptions = {}) => {
  server = await liveServer(options);
};

/** Opens a connection that sends nothing more, from one of this machine's own addresses. */
async function idle(localAddress: string, said = ""): Promise<Socket> {
  const socket = connect({ port: Number(new URL(server.url).port), host: "127.0.0.1", localAddress });
  socket.on("error", () => {});
  opened.push(socket);
  await new Promise((resolve) => socket.once("connect", resolve));
  if (said !== "") socket.write(said);
  return socket;
}
const many = async (n: number, address: (n: number) => string) => {
  for (let done = 0; done < n; done += 100)
    await Promise.all(Array.from({ length: Math.min(100, n - done) }, (_, i) => idle(address(done + i))));
  await new Promise((resolve) => setTimeout(resolve, 200));
};
const count = () =>
  new Promise<number>((resolve, reject) =>
    server.app.server.getConnections((error, n) => (error ? reject(error) : resolve(n))),
  );
const panelOn = async (token: string) => new TestPanel(server.url, { token, proto: PROTOCOL }).settled();

describe("connections on which nobody has signed in", () => {
  it("[SEC-26] are bounded by address: of a thousand of one stranger a fifth is open, and a crew beside it comes in and gives its stop", async () => {
    await open();
    const token = await signIn(server.app, "fay");
    const { id } = await planned(server.app, token);
    await many(1_000, () => "127.0.0.9");
    expect(await count()).toBeLessThanOrEqual(DOOR.perNetwork);
    const panel = await panelOn(token);
    expect((await panel.command(id, HOLD)).status).toBe("accepted");
    panel.close();
  });

  it("[SEC-26] are bounded in all: of forty addresses with fifty each, those that hold the most give way to a newcomer", async () => {
    await open();
    const token = await signIn(server.app, "fay");
    await many(2_000, (n) => `127.0.1.${1 + (n % 40)}`);
    expect(await count()).toBeLessThanOrEqual(DOOR.unauthenticated);
    expect(await count()).toBeGreaterThan(DOOR.unauthenticated / 2);
    const reply = await fetch(`${server.url}/api/me`, { headers: { authorization: `Bearer ${token}` } });
    expect(reply.status).toBe(200);
    const panel = await panelOn(token);
    expect(panel.socket.connected).toBe(true);
    panel.close();
  });

  it("[SEC-26] no longer count once somebody has signed in on them, by a panel's socket or a request", async () => {
    await open();
    const token = await signIn(server.app, "fay");
    const panel = await panelOn(token);
    const get = `GET /api/me HTTP/1.1\r\nhost: localhost\r\nauthorization: Bearer ${token}\r\n\r\n`;
    const asked = await idle("127.0.0.1", get);
    await new Promise((resolve) => asked.once("data", resolve));
    await server.hand.pass(DOOR.ms);
    await many(DOOR.perNetwork + 50, () => "127.0.0.1");
    await server.hand.pass(DOOR.ms);
    await many(50, () => "127.0.0.1");
    expect([panel.socket.connected, asked.destroyed]).toEqual([true, false]);
    expect(await count()).toBe(DOOR.perNetwork + 2);
    panel.close();
  });

  it("[SEC-26] through a configured proxy do not count as one client's", async () => {
    await open({ proxies: ["127.0.0.1"] });
    await many(DOOR.perNetwork + 50, () => "127.0.0.1");
    expect(await count()).toBe(DOOR.perNetwork + 50);
  });

  it("[SEC-26] are closed five seconds after their last request", async () => {
    await open();
    expect(server.app.server.keepAliveTimeout).toBe(5_000);
    expect(server.app.server.headersTimeout).toBe(10_000);
    expect(server.app.server.maxConnections).toBe(DOOR.connections);
  });
});
