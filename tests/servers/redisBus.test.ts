import { createClient } from "@redis/client";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { PeerMessage } from "../../server/many/bus.ts";
import { RedisBus } from "../../server/many/redis-bus.ts";
import { RedisServer } from "./redis-server.ts";

const SECRET = Buffer.alloc(32, 7);
const log = {
  info() {},
  error: (detail: object) => void complaints.push(String((detail as { err: Error }).err)),
};
let complaints: string[] = [];
let redis: RedisServer;

beforeAll(async () => {
  redis = await RedisServer.start();
});
afterAll(() => redis.stop());

const message = (seq: number): PeerMessage => ({ is: "moved", session: "s", seq });

/** Returns a bus that listens, and the messages it hears. */
async function listening(secret: Uint8Array) {
  const bus = new RedisBus(redis.url, secret, log);
  const heard: PeerMessage[] = [];
  const next = () => new Promise<void>((done) => waiting.push(done));
  const waiting: (() => void)[] = [];
  await new Promise<void>((back) =>
    bus.listen({
      message: (said) => {
        heard.push(said);
        for (const done of waiting.splice(0)) done();
      },
      back,
    }),
  );
  return { bus, heard, next };
}

describe("messages by Redis", () => {
  it("[CLU-14] are heard only from servers that hold the secret, and once", async () => {
    complaints = [];
    const [one, two, stranger] = [
      await listening(SECRET),
      await listening(SECRET),
      await listening(Buffer.alloc(32, 8)),
    ];
    const client = createClient({ url: redis.url });
    await client.connect();
    const said = async (from: RedisBus, what: PeerMessage) => {
      const came = two.next();
      from.send(what);
      await came;
    };
    await said(one.bus, message(1));
    // An attacker with access to Redis repeats a message, changes it, and writes one of their own.
    const [entry] = ((await client.xRange("chockside:words", "-", "+")) ?? []).map(({ message }) => ({
      ...message,
    }));
    if (!entry?.words) throw new Error("nothing was said");
    const forged = { ...entry, n: "99", words: entry.words.replace('"seq":1', '"seq":9') };
    for (const one of [entry, forged, { ...forged, mac: "" }, { words: "[]" }])
      await client.xAdd("chockside:words", "*", one as Record<string, string>);
    stranger.bus.send(message(3));
    await stranger.bus.close();
    await said(one.bus, message(2));
    expect(two.heard).toEqual([message(1), message(2)]);
    expect(complaints.filter((c) => c.includes("CHOCKSIDE_SECRET")).length).toBeGreaterThan(2);
    await client.close();
    await one.bus.close();
    await two.bus.close();
  });

  it("[CLU-15] leave Redis when they are of no more use, and all of them when no server sends", async () => {
    const client = createClient({ url: redis.url });
    await client.connect();
    await client.del("chockside:words");
    const now = Number((await client.time())[0]) * 1_000;
    await client.xAdd("chockside:words", `${now - 11 * 60_000}-0`, { words: "old" });
    await client.xAdd("chockside:words", `${now - 9 * 60_000}-0`, { words: "young" });
    const one = await listening(SECRET);
    one.bus.send(message(1));
    let left = -1;
    while (left < 0) left = await client.pTTL("chockside:words");
    const kept = (await client.xRange("chockside:words", "-", "+")) ?? [];
    expect(kept.map(({ message }) => message.words)).toEqual(["young", JSON.stringify([message(1)])]);
    expect(left).toBeLessThanOrEqual(10 * 60_000);
    await client.close();
    await one.bus.close();
  });
});
