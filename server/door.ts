import type { Server } from "node:http";
import type { Socket } from "node:net";
import proxyaddr from "@fastify/proxy-addr";
import { networkOf } from "./peer.ts";
import { Places } from "./places.ts";

/** Connections, whatever is spoken over them. */
export const DOOR = {
  /** Of all together. */
  connections: 10_000,
  /** On which nobody has signed in: per address (IPv6: per /64 network) and in all. */
  perNetwork: 200,
  unauthenticated: 1_000,
  /** Such a connection keeps its place for this long when others want it. Milliseconds. */
  ms: 1_000,
} as const;

/**
 * Bounds the connections on which nobody has signed in. One that carries a valid sign-in, by a request or as a panel's
 * socket, no longer counts. Proxies of the settings are not counted: everybody behind one has its address.
 */
export class Door {
  readonly #places = new Places({ perNetwork: DOOR.perNetwork, all: DOOR.unauthenticated, ms: DOOR.ms });
  readonly #leave = new Map<string, () => boolean>();

  constructor(server: Server, proxies: readonly string[], now: () => number) {
    const isProxy = proxies.length > 0 ? proxyaddr.compile([...proxies]) : () => false;
    server.maxConnections = DOOR.connections;
    server.prependListener("connection", (socket: Socket) => {
      const address = socket.remoteAddress ?? "";
      if (isProxy(address, 0)) return;
      const network = networkOf(address);
      if (!this.#places.room(network, now())) {
        socket.destroy();
        return;
      }
      const key = keyOf(socket);
      const cut = () => {
        leave();
        socket.destroy();
      };
      const leave = this.#places.take(network, { since: now(), cut });
      this.#leave.set(key, leave);
      socket.once("close", () => {
        leave();
        if (this.#leave.get(key) === leave) this.#leave.delete(key);
      });
    });
  }

  /** Somebody has signed in over this connection. */
  signedIn(socket: Pick<Socket, "remoteAddress" | "remotePort">): void {
    this.#leave.get(keyOf(socket))?.();
  }
}

/** The same for a TLS socket and the connection under it. */
const keyOf = ({ remoteAddress, remotePort }: Pick<Socket, "remoteAddress" | "remotePort">) =>
  `${remoteAddress} ${remotePort}`;
