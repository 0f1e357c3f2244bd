import { createHmac, randomUUID } from "node:crypto";
import { mkdtempSync, rmSync } from "node:fs";
import { createServer, type Server } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, it } from "vitest";
import { ALONE } from "../../server/many/duty.ts";
import { Progress } from "../../server/webhooks/progress.ts";
import { signature } from "../../server/webhooks/send.ts";
import type { Target } from "../../server/webhooks/targets.ts";
import { Webhooks } from "../../server/webhooks/webhooks.ts";
import type { Action } from "../../shared/protocol/commands.ts";
import { settle } from "../http/hand-clock.ts";
import { planned, signIn, type TestServer, testServer } from "../http/test-server.ts";

const SECRET = "whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw";

/** A receiver that answers as it is told, and keeps what it took. */
let receiver: Server;
let answers: number[] = [];
let location: string | null = null;
const taken: { id: string; type: string; body: string; right: boolean }[] = [];
let requests = 0;

let folder: string;
let test: TestServer;
let fay: string;
let hooks: Webhooks | null = null;

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), "chockside-hooks-"));
  answers = [];
  location = null;
  taken.length = 0;
  requests = 0;
  receiver = createServer((request, reply) => {
    let body = "";
    request.on("data", (chunk) => {
      body += chunk;
    });
    request.on("end", () => {
      requests += 1;
      const status = answers.shift() ?? 204;
      const id = String(request.headers["webhook-id"]);
      const at = String(request.headers["webhook-timestamp"]);
      // Checked from the standard's own words, not by the program's function.
      const key = Buffer.from(SECRET.slice(6), "base64");
      const mac = createHmac("sha256", key).update(`${id}.${at}.${body}`).digest("base64");
      const right = request.headers["webhook-signature"] === `v1,${mac}`;
      if (status < 300) taken.push({ id, type: JSON.parse(body).type, body, right });
      reply.writeHead(status, location === null ? {} : { location }).end();
    });
  });
  await new Promise<void>((done) => receiver.listen(0, "127.0.0.1", done));
  test = await testServer();
  fay = await signIn(test.app, "fay");
});
afterEach(async () => {
  await hooks?.close();
  hooks = null;
  await test.close();
  receiver.close();
  rmSync(folder, { recursive: true, force: true });
});

const url = () => `http://127.0.0.1:${(receiver.address() as AddressInfo).port}/in`;
const target = (more: Partial<Target> = {}): Target => ({
  ...{ name: "hangar", url: url(), secret: SECRET, networks: ["127.0.0.0/8"] },
  kinds: ["session.planned", "session.stage", "stop.given"],
  ...more,
});
const log = { error() {}, info() {}, warn() {} };
const progress = () => new Progress(folder);
function begin(...targets: Target[]) {
  const resolve = async () => [{ address: "127.0.0.1", family: 4 }];
  hooks = new Webhooks({ ...test.services, log, progress: progress(), resolve, duty: ALONE }, targets);
  return hooks;
}
function act(session: string, action: Action) {
  const { clock, sessions } = test.services;
  const person = { id: "fay", name: "Fay", device: "fay-tablet", mayHold: [] };
  return sessions.command(person, { v: 1, id: randomUUID(), session, clientAt: clock.now(), action });
}
async function until(is: () => boolean | Promise<boolean>) {
  // A real socket answers when the machine has time for it: a number of turns says nothing of that.
  for (const end = Date.now() + 30_000; !(await is()) && Date.now() < end; ) await settle();
  expect(await is()).toBe(true);
}
const waits = () => hooks?.states().map((s) => s.waits);
const hold = (session: string) => act(session, { type: "send", kind: "hold", channel: "panel" });

it("[INT-21] signs as Standard Webhooks 1.0.0 says (the reference vector of its libraries)", () => {
  expect(signature(SECRET, "msg_p5jXN8AQM9LWM0D4loKWxJek", 1_614_265_330, '{"test": 2432232314}')).toBe(
    "v1,g0hM9SsE+OTPJTGt/tmIKtSyZlE3uFJELVlNIOLJ1OE=",
  );
});

it("[INT-21] tells the named kinds alone, in their order, signed, and without the names of people", async () => {
  begin(target({ kinds: ["session.planned", "stop.given"] }));
  await until(async () => (await progress().position("hangar")) !== null);
  const { id } = await planned(test.app, fay);
  await act(id, { type: "claimPost", post: "supervisor" });
  await hold(id);
  await until(() => taken.length === 2);
  expect(taken.map((t) => [t.type, t.id, t.right])).toEqual([
    ["session.planned", `${id}.1`, true],
    ["stop.given", expect.stringMatching(`^${id}\\.`), true],
  ]);
  expect(taken.map((t) => t.body).join()).not.toContain("Fay");
});

it("[INT-23] a receiver that fails and comes back loses nothing, and a restart of the server sends nothing again", async () => {
  begin(target());
  await until(async () => (await progress().position("hangar")) !== null);
  answers = [500, 503, 429];
  const ids: string[] = [];
  for (let n = 0; n < 4; n += 1) ids.push((await planned(test.app, fay)).id);
  await until(() => waits()?.[0] === "answered 500");
  await test.hand.pass(4_900);
  await settle();
  expect(requests).toBe(1);
  for (const [wait, why] of [
    [200, "answered 503"],
    [10_000, "answered 429"],
    [20_000, null],
  ] as const) {
    await test.hand.pass(wait);
    await until(() => waits()?.[0] === why);
  }
  await until(() => taken.length === 4);
  expect(taken.map((t) => t.id)).toEqual(ids.map((id) => `${id}.1`));
  await hooks?.close();
  await hold(ids[0] as string);
  begin(target());
  await until(() => taken.length === 5);
  await settle();
  expect(taken.map((t) => t.id)).toHaveLength(new Set(taken.map((t) => t.id)).size);
});

it("[INT-24] [INT-33] a message that is refused three times is given up and shown, and the next one goes on", async () => {
  begin(target());
  await until(async () => (await progress().position("hangar")) !== null);
  answers = [400, 400, 400];
  const { id } = await planned(test.app, fay);
  for (const [n, wait] of [5_000, 10_000].entries()) {
    await until(() => requests === n + 1 && waits()?.[0] === "answered 400");
    await settle();
    await test.hand.pass(wait);
  }
  await until(async () => ((await hooks?.deadLetters()) ?? []).length === 1);
  expect(await hooks?.deadLetters()).toMatchObject([
    { target: "hangar", id: `${id}.1`, why: "answered 400" },
  ]);
  await hold(id);
  await until(() => taken.length === 1);
  // A supervisor sends it once more: in vain at first, then it is no longer listed.
  answers = [503];
  expect(await hooks?.again({ target: "hangar", id: `${id}.1` })).toBe("answered 503");
  expect(await hooks?.deadLetters()).toHaveLength(1);
  expect(await hooks?.again({ target: "hangar", id: `${id}.1` })).toBeNull();
  expect(taken.at(-1)).toMatchObject({ id: `${id}.1`, type: "session.planned", right: true });
  expect(await hooks?.deadLetters()).toEqual([]);
  expect(await hooks?.again({ target: "hangar", id: `${id}.1` })).toBeUndefined();
});

it("[INT-22] follows no redirect, and sends nothing to a private address that is not named", async () => {
  let elsewhere = 0;
  const other = createServer((_request, reply) => {
    elsewhere += 1;
    reply.end();
  });
  await new Promise<void>((done) => other.listen(0, "127.0.0.1", done));
  location = `http://127.0.0.1:${(other.address() as AddressInfo).port}/`;
  answers = [302];
  const far = target({ name: "far", url: url().replace("127.0.0.1", "hooks.example"), networks: [] });
  begin(target(), far);
  await until(async () => (await progress().position("far")) !== null);
  await until(async () => (await progress().position("hangar")) !== null);
  await planned(test.app, fay);
  await until(() => (hooks?.states() ?? []).every((s) => s.waits !== null));
  expect(hooks?.states().map((s) => s.waits)).toEqual([
    "answered 302",
    "hooks.example is not on the public internet, and its network is not named",
  ]);
  expect([requests, elsewhere]).toEqual([1, 0]);
  other.close();
});
