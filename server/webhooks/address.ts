import { type LookupAddress, lookup } from "node:dns";
import { BlockList, isIP } from "node:net";

/**
 * Networks that are not the public internet, by the IANA special-purpose address registries (RFC 6890 and its updates,
 * from memory).
 */
const V4 = [
  ...["0.0.0.0/8", "10.0.0.0/8", "100.64.0.0/10", "127.0.0.0/8", "169.254.0.0/16", "172.16.0.0/12"],
  ...["192.0.0.0/24", "192.0.2.0/24", "192.88.99.0/24", "192.168.0.0/16", "198.18.0.0/15"],
  ...["198.51.100.0/24", "203.0.113.0/24", "224.0.0.0/4", "240.0.0.0/4"],
];
/** Parts of 2000::/3 that lead elsewhere: protocol assignments with Teredo, documentation and 6to4. */
const V6 = ["2001::/23", "2001:db8::/32", "2002::/16", "3fff::/20"];

function listOf(networks: readonly string[]): BlockList {
  const list = new BlockList();
  for (const network of networks) {
    const [address = "", bits = isIP(network) === 6 ? "128" : "32"] = network.split("/");
    list.addSubnet(address, Number(bits), isIP(address) === 6 ? "ipv6" : "ipv4");
  }
  return list;
}

const PRIVATE_V4 = listOf(V4);
const PRIVATE_V6 = listOf(V6);
const GLOBAL_V6 = listOf(["2000::/3"]);

/** An IPv4 address inside an IPv6 one (RFC 4291 2.5.5.2), in either way of writing it. */
const MAPPED = /^(?:0*:)*:?(?:0*:)*ffff:(?:(\d+\.\d+\.\d+\.\d+)|([0-9a-f]{1,4}):([0-9a-f]{1,4}))$/i;

function unmapped(address: string): string {
  const [, dotted, high, low] = MAPPED.exec(address) ?? [];
  if (dotted !== undefined) return dotted;
  if (high === undefined || low === undefined) return address;
  const [h, l] = [Number.parseInt(high, 16), Number.parseInt(low, 16)];
  return [h >> 8, h & 255, l >> 8, l & 255].join(".");
}

/** Returns true for an address of the public internet. */
function isPublic(given: string): boolean {
  const address = unmapped(given);
  const family = isIP(address);
  if (family === 4) return !PRIVATE_V4.check(address, "ipv4");
  if (family !== 6) return false;
  return GLOBAL_V6.check(address, "ipv6") && !PRIVATE_V6.check(address, "ipv6");
}

/** Returns true when a request may go to this address: a public one, or one of the networks that the operator named. */
export function mayReach(given: string, allowed: readonly string[]): boolean {
  const address = unmapped(given);
  const family = isIP(address);
  return (
    family !== 0 && (isPublic(address) || listOf(allowed).check(address, family === 6 ? "ipv6" : "ipv4"))
  );
}

export class AddressRefused extends Error {
  override readonly name = "AddressRefused";
}

export type Resolve = (host: string) => Promise<readonly LookupAddress[]>;

export const resolveByDns: Resolve = (host) =>
  new Promise((resolve, reject) => {
    lookup(host, { all: true, verbatim: true }, (error, found) => (error ? reject(error) : resolve(found)));
  });

/**
 * Returns the address to which a host's requests go. It is looked up once and used as it is: a name that answers
 * otherwise a moment later changes nothing. One forbidden address among several refuses all.
 * @throws AddressRefused
 */
export async function pinned(
  host: string,
  allowed: readonly string[],
  resolve: Resolve,
): Promise<LookupAddress> {
  const bare = host.replace(/^\[|\]$/g, "");
  const family = isIP(bare);
  const found = family === 0 ? await resolve(bare) : [{ address: bare, family }];
  const [first] = found;
  if (!first || !found.every(({ address }) => mayReach(address, allowed)))
    throw new AddressRefused(`${host} is not on the public internet, and its network is not named`);
  return first;
}
