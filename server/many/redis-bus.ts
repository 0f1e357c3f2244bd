import { createHmac, randomUUID, timingSafeEqual } from "node:crypto";
import { setTimeout as pause } from "node:timers/promises";
import { createClient } from "@redis/client";
import { z } from "zod";
import type { SessionLog } from "../sessions/deps.ts";
import { type Bus, type PeerMessage, peerMessageSchema } from "./bus.ts";

export const STREAM = "chockside:words";
/** Messages kept for a server that is away briefly. One that was away longer reads the database. */
const KEPT = 20_000;
/**
 * Older messages are deleted from Redis, at this interval while servers send; when none sends, all expire.
 * Milliseconds.
 */
const KEPT_MS = 10 * 60_000;
const CLEAN_MS = 60_000;
/**
 * The reader's blocking read lasts this long at most. No answer for SILENT_MS means the link is broken. Milliseconds.
 */
const BLOCK_MS = 1_000;
const SILENT_MS = 3_000;
const AGAIN_MS = 200;
/** Longest wait for the link with a stop that was not recorded. Milliseconds. */
const STOP_WAITS_MS = 10_000;
/** Server runs whose counters are remembered. */
const SENDERS = 1_000;
/** Most entries per read. */
const COUNT = 1_000;

type Client = ReturnType<typeof connect>;
type Listener = Parameters<Bus["listen"]>[0];

function connect(url: string) {
  const client = createClient({
    url,
    disableOfflineQueue: true,
    pingInterval: BLOCK_MS,
    socket: { connectTimeout: 2_000, socketTimeout: SILENT_MS, reconnectStrategy: AGAIN_MS, keepAlive: true },
  });
  // The client reconnects after every error; only `isReady` matters here.
  client.on("error", () => {});
  return client;
}

const entrySchema = z.object({ from: z.string(), n: z.string(), words: z.string(), mac: z.string() });
type Entry = z.infer<typeof entrySchema>;

/**
 * A bus on a Redis Stream: each server appends to it and reads all entries. Messages of one turn of the event loop
 * share an entry. Redis may be lost at any time and is not trusted: each entry carries its sender's counter and an
 * HMAC-SHA-256 that only servers with the secret can make.
 */
export class RedisBus implements Bus {
  readonly #writer: Client;
  readonly #reader: Client;
  readonly #log: SessionLog;
  readonly #id = randomUUID();
  readonly #secret: Uint8Array;
  /** Last counter received from each sender. */
  readonly #counts = new Map<string, number>();
  #count = 0;
  /** The last time old messages were deleted, by the clock of Redis. */
  #cleaned = Number.NEGATIVE_INFINITY;
  #listener: Listener = { message() {}, back() {} };
  #queue: PeerMessage[] = [];
  #reading = false;
  #closed = false;
  #up = true;

  /**
   * @param url `redis://host:port`, or `rediss://` across a network
   * @param secret the same on all servers
   */
  constructor(url: string, secret: Uint8Array, log: SessionLog) {
    this.#secret = secret;
    this.#writer = connect(url);
    this.#reader = connect(url);
    this.#log = log;
    for (const client of [this.#writer, this.#reader]) void client.connect().catch(() => {});
    void this.#readOn();
  }

  get up(): boolean {
    return this.#writer.isReady && this.#reading;
  }

  send(message: PeerMessage): void {
    this.#queue.push(message);
    if (this.#queue.length === 1) setImmediate(() => void this.#send());
  }

  listen(listener: Listener): void {
    this.#listener = listener;
  }

  async close(): Promise<void> {
    this.#closed = true;
    await this.#send();
    for (const client of [this.#writer, this.#reader]) client.destroy();
  }

  async #send(): Promise<void> {
    const messages = this.#queue;
    this.#queue = [];
    if (messages.length === 0) return;
    const entry = this.#entry(messages);
    const trim = { TRIM: { strategy: "MAXLEN", strategyModifier: "~", threshold: KEPT } } as const;
    const sent = await this.#writer.xAdd(STREAM, "*", entry, trim).catch(() => null);
    if (sent === null) await this.#sendLater(messages.filter((message) => message.is === "unrecorded"));
    else void this.#clean(Number.parseInt(sent, 10)).catch(() => {});
  }

  /**
   * Deletes old messages: they contain what people said, so none is kept longer than needed.
   * @param now from the id of an entry
   */
  async #clean(now: number): Promise<void> {
    // The absolute value also covers a Redis clock that was set back.
    if (Math.abs(now - this.#cleaned) < CLEAN_MS) return;
    this.#cleaned = now;
    await this.#writer.xTrim(STREAM, "MINID", now - KEPT_MS);
    await this.#writer.pExpire(STREAM, KEPT_MS);
  }

  /**
   * Sends unrecorded stops once the link is back. Other messages can be lost, because the database has what they say.
   */
  async #sendLater(messages: readonly PeerMessage[]): Promise<void> {
    const fresh = messages.filter((message) => message.is === "unrecorded");
    for (const message of fresh) {
      const until = Date.now() + STOP_WAITS_MS;
      const entry = this.#entry([message]);
      while (!this.#closed && Date.now() < until) {
        await pause(AGAIN_MS);
        if (await this.#writer.xAdd(STREAM, "*", entry).catch(() => null)) break;
      }
    }
  }

  async #readOn(): Promise<void> {
    while (!this.#closed) {
      try {
        let last = await this.#newest();
        this.#reading = true;
        this.#noteLink();
        this.#listener.back();
        for (;;) last = await this.#readAfter(last);
      } catch {
        this.#reading = false;
        this.#noteLink();
        await pause(AGAIN_MS);
      }
    }
  }

  /**
   * Returns the id to read on from. Redis may have come back empty or with its clock set back, so an earlier id is of
   * no use.
   */
  async #newest(): Promise<string> {
    return (await this.#reader.xRevRange(STREAM, "+", "-", { COUNT: 1 }))?.[0]?.id ?? "0-0";
  }

  async #readAfter(id: string): Promise<string> {
    const streams = await this.#reader.xRead({ key: STREAM, id }, { BLOCK: BLOCK_MS, COUNT });
    const entries = streams?.[0]?.messages ?? [];
    for (const { message } of entries) this.#hear(message);
    return entries.at(-1)?.id ?? id;
  }

  #hear(message: unknown): void {
    try {
      const entry = entrySchema.parse(message);
      const { from, words } = entry;
      if (from === this.#id) return;
      if (!this.#isOurs(entry))
        throw new Error("its code is wrong: is CHOCKSIDE_SECRET the same everywhere?");
      if (!this.#isNew(entry)) return;
      for (const said of z.array(z.unknown()).parse(JSON.parse(words))) {
        // Skip message kinds that only a newer server knows.
        const message = peerMessageSchema.safeParse(said);
        if (message.success) this.#listener.message(message.data);
      }
    } catch (error) {
      this.#log.error({ err: error }, "a message from another server was not understood");
    }
  }

  #entry(messages: readonly PeerMessage[]): Entry {
    this.#count += 1;
    const entry = { from: this.#id, n: String(this.#count), words: JSON.stringify(messages) };
    return { ...entry, mac: this.#code(entry).toString("hex") };
  }

  #code({ from, n, words }: Omit<Entry, "mac">): Buffer {
    return createHmac("sha256", this.#secret).update(`${from}\n${n}\n${words}`).digest();
  }

  #isOurs({ mac, ...entry }: Entry): boolean {
    const [given, due] = [Buffer.from(mac, "hex"), this.#code(entry)];
    return given.length === due.length && timingSafeEqual(given, due);
  }

  /** Returns false for an entry that somebody replayed. */
  #isNew({ from, n }: Entry): boolean {
    if (Number(n) <= (this.#counts.get(from) ?? 0)) return false;
    if (this.#counts.size > SENDERS) this.#counts.clear();
    this.#counts.set(from, Number(n));
    return true;
  }

  #noteLink(): void {
    if (this.#up === this.#reading || this.#closed) return;
    this.#up = this.#reading;
    if (this.#up) this.#log.info({}, "Redis is connected: servers notify each other at once");
    else this.#log.error({}, "Redis is not connected: servers read the database twice a second instead");
  }
}
