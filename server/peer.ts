import type { IncomingMessage, Server } from "node:http";
import proxyaddr from "@fastify/proxy-addr";

/** Client addresses of sockets, as trusted proxies report them. */
const told = new WeakMap<IncomingMessage, string>();

/**
 * Records the client address (`X-Forwarded-For`) of each socket that a trusted proxy opens. Fastify does this for
 * requests only. The header of anybody else is ignored: it can be forged.
 */
export function tellPeers(server: Server, proxies: readonly string[]): void {
  if (proxies.length === 0) return;
  const trust = proxyaddr.compile([...proxies]);
  server.prependListener("upgrade", (request) => told.set(request, proxyaddr(request, trust)));
}

/** Returns the client's address. */
export function peerOf(request: IncomingMessage): string {
  return told.get(request) ?? request.socket.remoteAddress ?? "";
}

/** Returns the network that one customer holds: the first 64 bits of an IPv6 address (RFC 6177), else the address. */
export function networkOf(address: string): string {
  const mapped = /^::ffff:([\d.]+)$/i.exec(address)?.[1];
  if (mapped !== undefined) return mapped;
  if (!address.includes(":")) return address;
  const [head = "", tail] = (address.split("%")[0] ?? "").split("::");
  const groups = (text: string | undefined) => (text ? text.split(":") : []);
  const known = [...groups(head), ...groups(tail)].length;
  const all = [...groups(head), ...Array<string>(Math.max(0, 8 - known)).fill("0"), ...groups(tail)];
  const first = all.slice(0, 4).map((group) => Number.parseInt(group, 16).toString(16));
  return `${first.join(":")}::/64`;
}

/** Returns true for an address, or a network (RFC 4632) smaller than all addresses, such as 10.0.0.0/8. */
export function isNetwork(text: string): boolean {
  try {
    proxyaddr.compile(text);
    return /^[0-9a-f.:]+(\/[1-9]\d*)?$/i.test(text);
  } catch {
    return false;
  }
}
