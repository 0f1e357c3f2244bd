import { createHmac, randomUUID } from "node:crypto";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { createServer, type ServerResponse } from "node:http";
import type { AddressInfo } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, expect, it } from "vitest";
import { webhookKind } from "../../server/webhooks/kinds.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import { CREW, connect, planOn, signInOn } from "../live/kill-run.ts";
import { prepareServer, ServerProcess } from "../live/server-process.ts";
import { PostgresServer } from "./postgres-server.ts";
import { RedisServer } from "./redis-server.ts";

const MINUTE = 60_000;
const SECRET = "whsec_MfKQ9r8GKYqrTwjUPD8ILPZIo2LaLaSw";
const SHARED = "b3VyIHNlcnZlcnMga25vdyBlYWNoIG90aGVyIGJ5IHRoaXM=";
const KINDS = ["session.planned", "stop.given"] as const;

/** A target that works, refuses, or takes a message and never says so. It keeps what it took, as it came. */
class Receiver {
  does: "takes" | "fails" | "isSilent" = "takes";
  readonly taken: { id: string; body: string; right: boolean }[] = [];
  refused = 0;
  readonly #silent: ServerResponse[] = [];
  readonly #server = createServer((request, reply) => {
    let body = "";
    request.on("data", (chunk) => {
      body += chunk;
    });
    request.on("end", () => {
      if (this.does === "fails") {
        this.refused += 1;
        reply.writeHead(503).end();
        return;
      }
      const id = String(request.headers["webhook-id"]);
      const at = String(request.headers["webhook-timestamp"]);
      const key = Buffer.from(SECRET.slice(6), "base64");
      const mac = createHmac("sha256", key).update(`${id}.${at}.${body}`).digest("base64");
      this.taken.push({ id, body, right: request.headers["webhook-signature"] === `v1,${mac}` });
      if (this.does === "isSilent") this.#silent.push(reply);
      else reply.writeHead(204).end();
    });
  });

  async listen(): Promise<string> {
    await new Promise<void>((done) => this.#server.listen(0, "127.0.0.1", done));
    return `http://127.0.0.1:${(this.#server.address() as AddressInfo).port}/in`;
  }

  close(): void {
    for (const reply of this.#silent) reply.destroy();
    this.#server.closeAllConnections();
    this.#server.close();
  }
}

let postgres: PostgresServer;
let redis: RedisServer;
let folder: string;
const receiver = new Receiver();
const servers: ServerProcess[] = [];

beforeAll(async () => {
  prepareServer();
  [postgres, redis] = await Promise.all([PostgresServer.start(), RedisServer.start()]);
  folder = mkdtempSync(join(tmpdir(), "chockside-hooks-"));
}, 5 * MINUTE);
afterAll(async () => {
  await Promise.all(servers.map((server) => server.kill()));
  await Promise.all([postgres.stop(), redis.stop()]);
  receiver.close();
  rmSync(folder, { recursive: true, force: true });
});

async function until(is: () => Promise<boolean> | boolean): Promise<void> {
  for (const end = Date.now() + 2 * MINUTE; Date.now() < end; await new Promise((done) => setImmediate(done)))
    if (await is()) return;
  throw new Error(`it never came to ${is}`);
}

const ask = async <T>(url: string, path: string, token: string): Promise<T> =>
  (await fetch(`${url}/api/${path}`, { headers: { authorization: `Bearer ${token}` } })).json() as Promise<T>;

interface Row {
  name: string;
  here: boolean;
  waits: string | null;
}

it(
  "[INT-42] a receiver that fails and comes back gets every message once by its id, in order, while the server that sent them is killed and the other goes on",
  async () => {
    const url = await receiver.listen();
    const file = join(folder, "webhooks.json");
    writeFileSync(
      file,
      JSON.stringify([{ name: "hangar", url, secret: SECRET, kinds: KINDS, networks: ["127.0.0.0/8"] }]),
    );
    const environment = {
      ...{ DATABASE_URL: await postgres.database("hooks"), REDIS_URL: redis.url },
      ...{ CHOCKSIDE_SECRET: SHARED, CHOCKSIDE_WEBHOOKS: file },
    };
    const start = async () => {
      const server = await ServerProcess.start("", environment);
      servers.push(server);
      return server;
    };
    const first = await start();
    const second = await start();
    const token = await signInOn(first.url, ...CREW.supervisor);
    const stateAt = async ({ url: at }: ServerProcess) => (await ask<Row[]>(at, "webhooks", token))[0];
    await until(async () => (await stateAt(first))?.here === true || (await stateAt(second))?.here === true);
    const [sends, waits] = (await stateAt(first))?.here ? [first, second] : [second, first];
    expect((await stateAt(waits))?.here).toBe(false);

    // Everything is recorded by the server that does not send: the other one has it from the database.
    const sessions: string[] = [];
    const told = async (by: ServerProcess) => {
      const session = await planOn(by.url, token, sessions.length % 2 ? "QX-KES" : "QX-PEN");
      sessions.push(session);
      const panel = await connect(by.url, token);
      await panel.watch(session);
      for (let n = 0; n < 3; n += 1) {
        const held = await panel.command(
          session,
          { type: "send", kind: "hold", channel: "panel" },
          { id: randomUUID() },
        );
        if (!("seq" in held) || held.seq === null) throw new Error(JSON.stringify(held));
        const action = { type: "send", kind: "release", ref: held.seq, channel: "panel" } as const;
        await panel.command(session, action, { id: randomUUID() });
      }
      panel.close();
    };
    const ids = () => new Set(receiver.taken.map(({ id }) => id));
    await told(waits);
    await until(() => ids().size === 4);

    // It fails: what comes meanwhile waits.
    receiver.does = "fails";
    await told(waits);
    await until(async () => receiver.refused > 0 && (await stateAt(sends))?.waits === "answered 503");

    // It takes one message and the sender never hears of it, because it is killed.
    receiver.does = "isSilent";
    await until(() => ids().size === 5);
    await sends.kill();
    servers.splice(servers.indexOf(sends), 1);
    await told(waits);
    receiver.does = "takes";
    await until(async () => (await stateAt(waits))?.here === true);
    await until(() => ids().size >= 12);
    // A third server comes; nothing is sent anew.
    const third = await start();
    await told(third);
    await until(() => ids().size >= 16);
    await until(async () => (await stateAt(waits))?.waits === null);

    const expected: string[] = [];
    for (const session of sessions) {
      const { events } = await ask<{ events: SessionEvent[] }>(
        waits.url,
        `sessions/${session}/events`,
        token,
      );
      for (const event of events)
        if ((KINDS as readonly string[]).includes(webhookKind(event) ?? ""))
          expected.push(`${session}.${event.seq}`);
    }
    expect(expected).toHaveLength(16);
    const inOrder = [...ids()];
    expect([...inOrder].sort()).toEqual([...expected].sort());
    // The first of each, in the order of its session.
    for (const session of sessions)
      expect(inOrder.filter((id) => id.startsWith(`${session}.`))).toEqual(
        expected.filter((id) => id.startsWith(`${session}.`)),
      );
    expect(receiver.taken.every(({ right }) => right)).toBe(true);
    // Only the message whose taking was never heard comes again, the same to the byte. It may come more than once: the
    // server that goes on can reach the receiver while it is still silent.
    const again = receiver.taken.filter(
      ({ id }, nth) => receiver.taken.findIndex((t) => t.id === id) !== nth,
    );
    expect(new Set(again.map(({ id }) => id)).size).toBeLessThanOrEqual(1);
    for (const { id, body } of again) expect(receiver.taken.find((t) => t.id === id)?.body).toBe(body);
    expect(await ask(waits.url, "webhooks/given-up", token)).toEqual([]);
  },
  8 * MINUTE,
);
