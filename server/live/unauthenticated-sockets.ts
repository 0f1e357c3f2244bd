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

interface UnauthenticatedSocket {
  network: string;
  /** Server time of its arrival. */
  since: number;
  cut(): void;
  /** Called at its sign-in. */
  signedIn(): void;
}

/**
 * Bounds sockets without a sign-in: how many are open, per network and in all, what they may send, and how many may fail.
 * A new socket without a free place cuts the oldest socket of the network that has the most.
 */
export class UnauthenticatedSockets {
  readonly #now: () => number;
  readonly #refusals: Refusals;
  /** Oldest first in each network. */
  readonly #open = new Map<string, Set<UnauthenticatedSocket>>();
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
  mayOpen(request: IncomingMessage): boolean {
    const network = networkOf(peerOf(request));
    const now = this.#now();
    const failed = this.#failed.get(network);
    if (failed?.isEmpty(now)) return false;
    if (this.#allFailed.isEmpty(now) && failed?.isFull(now) === false) return false;
    const own = this.#open.get(network)?.size ?? 0;
    if (own >= LIMITS.unauthenticatedPerAddress) return this.#makeRoom(network, now);
    if (this.count < LIMITS.unauthenticated) return true;
    const [most] = [...this.#open].sort(([, a], [, b]) => b.size - a.size);
    if (!most) return false;
    return this.#makeRoom(most[0], most[1].size > own + 1 ? Number.POSITIVE_INFINITY : now);
  }

  /** Watches every socket from its opening to its sign-in or end. */
  watch(io: Io): void {
    const open = new Map<string, UnauthenticatedSocket>();
    io.engine.on("connection", (conn: Conn) => {
      const one = this.#take(conn, () => open.delete(conn.id));
      open.set(conn.id, one);
    });
    io.on("connection", ({ conn }) => open.get((conn as unknown as Conn).id)?.signedIn());
  }

  /** Cuts the oldest socket of a network if it has had its second. Returns true when it did. */
  #makeRoom(network: string, now: number): boolean {
    const [oldest] = this.#open.get(network) ?? [];
    if (!oldest || now - oldest.since < LIMITS.unauthenticatedMs) return false;
    oldest.cut();
    return true;
  }

  #take(conn: Conn, forget: () => boolean): UnauthenticatedSocket {
    const { socket } = conn.request;
    const address = peerOf(conn.request);
    const network = networkOf(address);
    const leave = () => {
      const all = this.#open.get(network);
      if (!all?.delete(one)) return false;
      if (all.size === 0) this.#open.delete(network);
      forget();
      return true;
    };
    const cut = () => {
      // Do not handle the present packet either.
      conn.removeAllListeners("data");
      socket.destroy();
      if (leave()) this.#fail(network);
    };
    const one: UnauthenticatedSocket = { network, since: this.#now(), cut, signedIn: () => void leave() };
    const all = this.#open.get(network) ?? new Set();
    this.#open.set(network, all.add(one));
    let packets = 0;
    let asked = false;
    conn.on("packet", ({ type, data }) => {
      if (!all.has(one)) return;
      packets += 1;
      const good = type === "pong" || (type === "message" && !asked && isConnectPacket(data));
      if (type === "message") asked = true;
      if (good && packets <= LIMITS.handshakePackets) return;
      this.#refusals.refused("badHandshake", { address, path: LIVE_PATH });
      cut();
    });
    // Destroy it: a peer that neither signs in nor closes would stay open for another 30 s.
    const late = setTimeout(() => {
      if (all.has(one)) cut();
    }, LIMITS.connectTimeoutMs + LEAVE_MS);
    conn.once("close", () => {
      clearTimeout(late);
      setTimeout(() => socket.destroy(), LEAVE_MS).unref();
    });
    // Count it until its connection is closed.
    socket.once("close", () => {
      if (leave()) this.#fail(network);
    });
    return one;
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
function isConnectPacket(data: unknown): boolean {
  return typeof data === "string" && /^0(\{|$)/.test(data) && data.length <= LIMITS.handshakeCharacters;
}
