import { afterAll, afterEach, beforeAll, describe, expect, it } from "vitest";
import { PROTOCOL } from "../../shared/protocol/version.ts";
import { signIn } from "../http/test-server.ts";
import { type LiveServer, liveServer, panelOf, TestPanel } from "./panel.ts";

const ALLOWED = "https://ramp.example";

let server: LiveServer;
let token: string;
const panels: TestPanel[] = [];

beforeAll(async () => {
  server = await liveServer({ origins: [ALLOWED] });
  token = await signIn(server.app, "ada");
});
afterEach(() => {
  for (const panel of panels.splice(0)) panel.close();
});
afterAll(() => server.close());

const connect = async (auth: unknown, headers = {}) => {
  const panel = new TestPanel(server.url, auth, headers);
  panels.push(panel);
  return panel.settled();
};

describe("the handshake", () => {
  it("[LIV-1] accepts a panel with a valid sign-in and the right protocol version", async () => {
    const panel = await connect({ token, proto: PROTOCOL });
    expect([panel.socket.connected, panel.refusal]).toEqual([true, null]);
  });

  it.each([
    ["an unknown token", () => ({ token: "A".repeat(43), proto: PROTOCOL }), "signInNeeded"],
    ["an older protocol", () => ({ token, proto: PROTOCOL - 1 }), "protocolMismatch"],
    ["a newer protocol", () => ({ token, proto: PROTOCOL + 1 }), "protocolMismatch"],
    ["nothing", () => ({}), "malformed"],
    ["a token that is no text", () => ({ token: { $ne: "" }, proto: PROTOCOL }), "malformed"],
    ["a field nobody knows", () => ({ token, proto: PROTOCOL, admin: true }), "malformed"],
  ])("[LIV-1] refuses %s with a reason a panel can read", async (_what, auth, error) => {
    const panel = await connect(auth());
    expect(panel.socket.connected).toBe(false);
    expect(panel.refusal?.data).toEqual({ error, message: panel.refusal?.message });
  });

  it("[LIV-1] refuses a sign-in that has ended", async () => {
    const ended = await signIn(server.app, "bo");
    await server.app.inject({
      method: "POST",
      url: "/api/sign-out",
      headers: { authorization: `Bearer ${ended}` },
    });
    const panel = await connect({ token: ended, proto: PROTOCOL });
    expect(panel.refusal?.data?.error).toBe("signInNeeded");
  });
});

describe("the page a socket comes from", () => {
  it.each([
    ["this server's own", () => server.url],
    ["one on the list", () => ALLOWED],
  ])("[LIV-2] may be %s", async (_what, origin) => {
    const panel = await connect({ token, proto: PROTOCOL }, { origin: origin() });
    expect(panel.socket.connected).toBe(true);
  });

  it.each([
    ["another site", () => "https://evil.example"],
    ["another port of this machine", () => "http://127.0.0.1:1"],
    ["a name that begins like one on the list", () => `${ALLOWED}.evil.example`],
    ["a sandboxed page", () => "null"],
    ["no address at all", () => "evil"],
  ])("[LIV-2] may not be %s, whatever token it brings", async (_what, origin) => {
    const panel = await connect({ token, proto: PROTOCOL }, { origin: origin() });
    expect(panel.socket.connected).toBe(false);
    expect(panel.refusal).not.toBeNull();
  });
});

describe("the end of a connection", () => {
  it("[LIV-8] comes at once with signing out, on that sign-in alone", async () => {
    const [mine, other] = [await panelOf(server, "cy", "d1"), await panelOf(server, "cy", "d2")];
    panels.push(mine, other);
    const { token: mineToken } = mine.socket.auth as { token: string };
    await server.app.inject({
      method: "POST",
      url: "/api/sign-out",
      headers: { authorization: `Bearer ${mineToken}` },
    });
    await mine.cut();
    expect(mine.byes).toEqual([{ why: "signedOut", retryAfterMs: 0 }]);
    await other.exchange();
    expect(other.socket.connected).toBe(true);
  });

  it("[LIV-8] comes at the sign-in's end, to the millisecond", async () => {
    const own = await liveServer();
    const panel = await panelOf(own, "ada");
    await own.hand.leap(12 * 3_600_000 - 1);
    await panel.exchange();
    expect(panel.socket.connected).toBe(true);
    await own.hand.pass(1);
    await panel.cut();
    expect(panel.byes.map((b) => b.why)).toEqual(["signedOut"]);
    await own.close();
  });

  it("[LIV-8] comes within seconds when another process ended the sign-in", async () => {
    const own = await liveServer();
    const panel = await panelOf(own, "ada");
    const { token: used } = panel.socket.auth as { token: string };
    const who = await own.services.signIns.who(used);
    await own.services.directory.revokeSignIn(who?.signIn ?? "", own.hand.clock.now());
    await own.hand.pass(5_000);
    await panel.cut();
    expect(panel.byes.map((b) => b.why)).toEqual(["signedOut"]);
    await own.close();
  });

  it("[LIV-12] is announced when the server stops, with the time to come back", async () => {
    const own = await liveServer();
    const panel = await panelOf(own, "ada");
    await own.close();
    await panel.cut();
    expect(panel.byes).toEqual([{ why: "restarting", retryAfterMs: 1_000 }]);
    expect(own.hand.waiting).toBe(0);
  });
});
