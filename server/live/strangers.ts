import type { IncomingMessage } from "node:http";
import { peerOf } from "../peer.ts";
import type { Io } from "./io.ts";
import { LIMITS } from "./limits.ts";

/** Milliseconds a peer has to complete the closing handshake before its connection is destroyed. */
const LEAVE_MS = 1_000;

/** Counts, per address, the open sockets that have no sign-in yet. */
export class Strangers {
  readonly #open = new Map<string, number>();

  mayCome(request: IncomingMessage): boolean {
    return (this.#open.get(peerOf(request)) ?? 0) < LIMITS.strangersPerAddress;
  }

  /** Follows every socket from its opening to its sign-in or its end. */
  watch(io: Io): void {
    const known = new Map<string, () => void>();
    io.engine.on("connection", (conn: { id: string; request: IncomingMessage; once: OnClose }) => {
      const address = peerOf(conn.request);
      this.#open.set(address, (this.#open.get(address) ?? 0) + 1);
      const noStranger = () => {
        if (!known.delete(conn.id)) return;
        const left = (this.#open.get(address) ?? 1) - 1;
        if (left > 0) this.#open.set(address, left);
        else this.#open.delete(address);
      };
      known.set(conn.id, noStranger);
      const { socket } = conn.request;
      // Destroy it: a peer that neither signs in nor closes would stay open for another 30 s.
      const late = setTimeout(() => {
        if (known.has(conn.id)) socket.destroy();
      }, LIMITS.connectTimeoutMs + LEAVE_MS);
      conn.once("close", () => {
        clearTimeout(late);
        noStranger();
        setTimeout(() => socket.destroy(), LEAVE_MS).unref();
      });
    });
    io.on("connection", ({ conn }) => known.get((conn as unknown as { id: string }).id)?.());
  }
}

type OnClose = (event: "close", run: () => void) => void;
