import type { IncomingMessage } from "node:http";
import type { Refusals } from "../audit.ts";
import { networkOf, peerOf } from "../peer.ts";
import { Bucket } from "./bucket.ts";
import { type Io, LIVE_PATH } from "./io.ts";
import { LIMITS } from "./limits.ts";

/** Time for a peer to close before its connection is destroyed. Milliseconds. */
const LEAVE_MS = 1_000;

/** The part of Engine.IO's socket that is used here. */
interface Conn {
  id: string;
  request: IncomingMessage;
  on(event: "packet", run: (packet: { type: string; data?: unknown }) => void): void;
  once(event: "close", run: () => void): void;
  removeAllListeners(event: "data"): void;
}

interface Stranger {
  network: string;
  /** Server time of its arrival. */
  since: number;
  cut(): void;
  /** Called when it has signed in. */
  known(): void;
}

/**
 * Bounds sockets without a sign-in: how many are open, per network and in all, what they may send, and how many may fail.
 * When a place is needed, the oldest of the network with the most sockets is cut.
 */
export class Strangers {
  readonly #now: () => number;
  readonly #refusals: Refusals;
  /** Oldest first in each network. */
  readonly #open = new Map<string, Set<Stranger>>();
  readonly #failed = new Map<string, Bucket>();
  readonly #allFailed: Bucket;

  constructor(now: () => number, refusals: Refusals) {
    this.#now = now;
    this.#refusals = refusals;
    this.#allFailed = new Bucket(LIMITS.allFailedBurst, LIMITS.allFailedPerSecond, now());
  }

  /** Returns how many sockets have no sign-in. */
  get count(): number {
    return [...this.#open.values()].reduce((sum, { size }) => sum + size, 0);
  }

  /** Returns true when one more socket may come from this address. Cuts another to make room if it can. */
  mayCome(request: IncomingMessage): boolean {
    const network = networkOf(peerOf(request));
    const now = this.#now();
    const failed = this.#failed.get(network);
    if (failed?.isEmpty(now)) return false;
    if (this.#allFailed.isEmpty(now) && failed?.isFull(now) === false) return false;
    const own = this.#open.get(network)?.size ?? 0;
    if (own >= LIMITS.strangersPerAddress) return this.#giveWay(network, now);
    if (this.count < LIMITS.strangers) return true;
    const [most] = [...this.#open].sort(([, a], [, b]) => b.size - a.size);
    if (!most) return false;
    return this.#giveWay(most[0], most[1].size > own + 1 ? Number.POSITIVE_INFINITY : now);
  }

  /** Watches every socket from its opening to its sign-in or end. */
  watch(io: Io): void {
    const open = new Map<string, Stranger>();
    io.engine.on("connection", (conn: Conn) => {
      const stranger = this.#take(conn, () => open.delete(conn.id));
      open.set(conn.id, stranger);
    });
    io.on("connection", ({ conn }) => open.get((conn as unknown as Conn).id)?.known());
  }

  /** Cuts the oldest socket of a network if it has had its second. Returns true when it did. */
  #giveWay(network: string, now: number): boolean {
    const [oldest] = this.#open.get(network) ?? [];
    if (!oldest || now - oldest.since < LIMITS.strangerMs) return false;
    oldest.cut();
    return true;
  }

  #take(conn: Conn, forget: () => boolean): Stranger {
    const { socket } = conn.request;
    const address = peerOf(conn.request);
    const network = networkOf(address);
    const leave = () => {
      const all = this.#open.get(network);
      if (!all?.delete(stranger)) return false;
      if (all.size === 0) this.#open.delete(network);
      forget();
      return true;
    };
    const cut = () => {
      // The packet at hand must not be handled either.
      conn.removeAllListeners("data");
      socket.destroy();
      if (leave()) this.#fail(network);
    };
    const stranger: Stranger = { network, since: this.#now(), cut, known: () => void leave() };
    const all = this.#open.get(network) ?? new Set();
    this.#open.set(network, all.add(stranger));
    let packets = 0;
    let asked = false;
    conn.on("packet", ({ type, data }) => {
      if (!all.has(stranger)) return;
      packets += 1;
      const good = type === "pong" || (type === "message" && !asked && asksToBeLetIn(data));
      if (type === "message") asked = true;
      if (good && packets <= LIMITS.strangerPackets) return;
      this.#refusals.refused("babble", { address, path: LIVE_PATH });
      cut();
    });
    // A peer that neither signs in nor closes would stay for another half minute.
    const late = setTimeout(() => {
      if (all.has(stranger)) cut();
    }, LIMITS.connectTimeoutMs + LEAVE_MS);
    conn.once("close", () => {
      clearTimeout(late);
      setTimeout(() => socket.destroy(), LEAVE_MS).unref();
    });
    // It counts until its connection is gone.
    socket.once("close", () => {
      if (leave()) this.#fail(network);
    });
    return stranger;
  }

  #fail(network: string): void {
    const now = this.#now();
    this.#allFailed.take(now);
    let bucket = this.#failed.get(network);
    if (!bucket) {
      for (const [of, other] of this.#failed) if (other.isFull(now)) this.#failed.delete(of);
      bucket = new Bucket(LIMITS.failedBurst, LIMITS.failedPerSecond, now);
      this.#failed.set(network, bucket);
    }
    bucket.take(now);
  }
}

/** Returns true for the packet a socket begins with: CONNECT to the main namespace (Socket.IO protocol 5). */
function asksToBeLetIn(data: unknown): boolean {
  return typeof data === "string" && /^0(\{|$)/.test(data) && data.length <= LIMITS.strangerBytes;
}
