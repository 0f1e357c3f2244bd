import { isIP } from "node:net";
import { sequence, tagged } from "./der.ts";

/** A part of the names that an authority signs: a name with all below it, or a network of addresses. */
export type Constraint = { is: "dns"; name: string } | { is: "network"; address: string; bits: number };

/** Numbers of RFC 5280's GeneralName. */
const DNS = 2;
const ADDRESS = 7;

/** Returns a name or an address as a certificate has it. */
export function generalName(name: string): Buffer {
  return isIP(name) === 0
    ? tagged(DNS, Buffer.from(name, "ascii"), false)
    : tagged(ADDRESS, Buffer.from(addressBytes(name)), false);
}

/** Returns a constraint as a subtree (RFC 5280, 4.2.1.10): a network is its address and its mask. */
export function subtree(constraint: Constraint): Buffer {
  if (constraint.is === "dns") return sequence(tagged(DNS, Buffer.from(constraint.name, "ascii"), false));
  const address = addressBytes(constraint.address);
  const mask = address.map((_, i) => {
    const own = Math.max(0, Math.min(8, constraint.bits - 8 * i));
    return (0xff << (8 - own)) & 0xff;
  });
  return sequence(
    tagged(ADDRESS, Buffer.from([...address.map((b, i) => b & (mask[i] ?? 0)), ...mask]), false),
  );
}

/** True for a name or an address that the constraint lets be signed. */
export function permits(constraint: Constraint, name: string): boolean {
  if (constraint.is === "dns") {
    const [own, under] = [name.toLowerCase(), constraint.name.toLowerCase()];
    return isIP(name) === 0 && (own === under || own.endsWith(`.${under}`));
  }
  if (isIP(name) === 0 || isIP(name) !== isIP(constraint.address)) return false;
  const network = addressBytes(constraint.address);
  return addressBytes(name).every((byte, i) => {
    const own = Math.max(0, Math.min(8, constraint.bits - 8 * i));
    const mask = (0xff << (8 - own)) & 0xff;
    return (byte & mask) === ((network[i] ?? 0) & mask);
  });
}

/** Returns the 4 or 16 bytes of an address. */
function addressBytes(address: string): number[] {
  if (isIP(address) === 4) return address.split(".").map(Number);
  // The platform's own parser writes the address in full groups of hexadecimal digits.
  const plain = new URL(`http://[${address.split("%")[0]}]`).hostname.slice(1, -1);
  const [head = "", tail] = plain.split("::");
  const groups = (text: string) => (text === "" ? [] : text.split(":").map((g) => Number.parseInt(g, 16)));
  const [first, last] = [groups(head), groups(tail ?? "")];
  const all = [...first, ...Array<number>(8 - first.length - last.length).fill(0), ...last];
  return all.flatMap((g) => [g >> 8, g & 0xff]);
}
