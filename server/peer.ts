import type { IncomingMessage, Server } from "node:http";
import proxyaddr from "@fastify/proxy-addr";

/** Where sockets come from, as proxies that are believed say. */
const told = new WeakMap<IncomingMessage, string>();

/**
 * Notes of each socket that is opened through one of these proxies where it comes from (`X-Forwarded-For`). Fastify
 * does that for requests alone. From anybody else the header says nothing: it can be made up.
 */
export function tellPeers(server: Server, proxies: readonly string[]): void {
  if (proxies.length === 0) return;
  const trust = proxyaddr.compile([...proxies]);
  server.prependListener("upgrade", (request) => told.set(request, proxyaddr(request, trust)));
}

/** The address a socket comes from. */
export function peerOf(request: IncomingMessage): string {
  return told.get(request) ?? request.socket.remoteAddress ?? "";
}

/** Whether it is an address, or a network of fewer than all (RFC 4632), such as 10.0.0.0/8. */
export function isNetwork(text: string): boolean {
  try {
    proxyaddr.compile(text);
    return /^[0-9a-f.:]+(\/[1-9]\d*)?$/i.test(text);
  } catch {
    return false;
  }
}
