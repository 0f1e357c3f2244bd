/** Tags of ASN.1 (X.690), as far as certificates use them. */
const TAGS = {
  boolean: 0x01,
  integer: 0x02,
  bits: 0x03,
  octets: 0x04,
  oid: 0x06,
  utf8: 0x0c,
  utcTime: 0x17,
  time: 0x18,
  sequence: 0x30,
  set: 0x31,
} as const;

/** Returns one value in the Distinguished Encoding Rules (X.690): tag, length, content. */
function value(tag: number, content: Uint8Array): Buffer {
  const { length } = content;
  if (length < 0x80) return Buffer.concat([Buffer.from([tag, length]), content]);
  const bytes = unsigned(BigInt(length));
  return Buffer.concat([Buffer.from([tag, 0x80 | bytes.length]), bytes, content]);
}

const unsigned = (n: bigint): Buffer => {
  const hex = n.toString(16);
  return Buffer.from(hex.length % 2 === 0 ? hex : `0${hex}`, "hex");
};

export const sequence = (...parts: Uint8Array[]): Buffer => value(TAGS.sequence, Buffer.concat(parts));
export const set = (...parts: Uint8Array[]): Buffer => value(TAGS.set, Buffer.concat(parts));
export const octets = (content: Uint8Array): Buffer => value(TAGS.octets, content);
export const utf8 = (text: string): Buffer => value(TAGS.utf8, Buffer.from(text));
export const boolean = (is: boolean): Buffer => value(TAGS.boolean, Buffer.from([is ? 0xff : 0]));

/** Returns a whole number that is not negative, from its bytes. */
export function integer(bytes: Uint8Array): Buffer {
  const from = bytes.findIndex((b) => b !== 0);
  const least = from === -1 ? Buffer.from([0]) : Buffer.from(bytes.subarray(from));
  return value(TAGS.integer, (least[0] ?? 0) & 0x80 ? Buffer.concat([Buffer.from([0]), least]) : least);
}

/** @param unused bits at the end that do not count */
export const bits = (content: Uint8Array, unused = 0): Buffer =>
  value(TAGS.bits, Buffer.concat([Buffer.from([unused]), content]));

/** Returns an object identifier, such as 2.5.29.17. */
export function oid(dotted: string): Buffer {
  const [first = 0, second = 0, ...rest] = dotted.split(".").map(Number);
  const bytes = [first * 40 + second, ...rest].flatMap((arc) => {
    const sevens = [arc & 0x7f];
    for (let left = arc >> 7; left > 0; left >>= 7) sevens.unshift(0x80 | (left & 0x7f));
    return sevens;
  });
  return value(TAGS.oid, Buffer.from(bytes));
}

/** Returns a moment as certificates have it: two digits of the year until 2049, four from then on (RFC 5280, 4.1.2.5). */
export function moment(ms: number): Buffer {
  const digits = `${new Date(ms).toISOString().replace(/[-:T]/g, "").slice(0, 14)}Z`;
  const year = Number(digits.slice(0, 4));
  return year < 2050
    ? value(TAGS.utcTime, Buffer.from(digits.slice(2)))
    : value(TAGS.time, Buffer.from(digits));
}

/** Returns content under a number that its context gives a meaning. `constructed`: it is values itself. */
export const tagged = (n: number, content: Uint8Array, constructed: boolean): Buffer =>
  value((constructed ? 0xa0 : 0x80) | n, content);
