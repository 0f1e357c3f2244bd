import { createHash, type KeyObject, randomBytes, sign } from "node:crypto";
import { bits, boolean, integer, moment, octets, oid, sequence, set, tagged, utf8 } from "./der.ts";
import { type Constraint, generalName, subtree } from "./general-name.ts";

/** A period of validity, milliseconds. */
interface Validity {
  from: number;
  until: number;
}

interface Issued {
  subject: string;
  issuer: string;
  validity: Validity;
  publicKey: KeyObject;
  /** The issuer's. */
  privateKey: KeyObject;
  issuerKey: KeyObject;
  extensions: Buffer[];
}

/** Object identifiers: RFC 5280 section 4.2, RFC 5758 section 3.2, X.520. */
const OID = {
  ecdsaSha256: "1.2.840.10045.4.3.2",
  commonName: "2.5.4.3",
  subjectKey: "2.5.29.14",
  keyUsage: "2.5.29.15",
  altName: "2.5.29.17",
  basicConstraints: "2.5.29.19",
  nameConstraints: "2.5.29.30",
  authorityKey: "2.5.29.35",
  extendedUse: "2.5.29.37",
  serverAuth: "1.3.6.1.5.5.7.3.1",
} as const;

/** Bytes of a serial number: CAs give at least 64 bits of chance, and at most 20 bytes (RFC 5280, 4.1.2.2). */
const SERIAL_BYTES = 16;

/**
 * Returns the certificate of an authority of one's own, in PEM: it signs servers' certificates and no further
 * authorities, and only for names within the constraints.
 */
export function authorityCertificate(
  name: string,
  keys: { publicKey: KeyObject; privateKey: KeyObject },
  validity: Validity,
  constraints: readonly Constraint[],
): string {
  const permitted = tagged(0, Buffer.concat(constraints.map(subtree)), true);
  return issued({
    ...{ subject: name, issuer: name, validity, ...keys, issuerKey: keys.publicKey },
    extensions: [
      // No authority below it: a path of length 0.
      extension(OID.basicConstraints, true, sequence(boolean(true), integer(Buffer.from([0])))),
      // Bits 5 and 6: keyCertSign, cRLSign.
      extension(OID.keyUsage, true, bits(Buffer.from([0b0000_0110]), 1)),
      extension(OID.nameConstraints, true, sequence(permitted)),
      extension(OID.subjectKey, false, octets(keyId(keys.publicKey))),
    ],
  });
}

/** Returns the certificate of a server for these names and addresses, in PEM, signed by an authority. */
export function serverCertificate(
  name: string,
  publicKey: KeyObject,
  authority: { name: string; publicKey: KeyObject; privateKey: KeyObject },
  validity: Validity,
  names: readonly string[],
): string {
  return issued({
    ...{ subject: name, issuer: authority.name, validity, publicKey },
    ...{ privateKey: authority.privateKey, issuerKey: authority.publicKey },
    extensions: [
      extension(OID.basicConstraints, true, sequence()),
      // Bit 0: digitalSignature.
      extension(OID.keyUsage, true, bits(Buffer.from([0b1000_0000]), 7)),
      extension(OID.extendedUse, false, sequence(oid(OID.serverAuth))),
      extension(OID.altName, false, sequence(...names.map(generalName))),
      extension(OID.subjectKey, false, octets(keyId(publicKey))),
    ],
  });
}

function issued({ subject, issuer, validity, publicKey, privateKey, issuerKey, extensions }: Issued): string {
  const algorithm = sequence(oid(OID.ecdsaSha256));
  const byKey = extension(OID.authorityKey, false, sequence(tagged(0, keyId(issuerKey), false)));
  const signed = sequence(
    // Version 3 is written as 2.
    tagged(0, integer(Buffer.from([2])), true),
    integer(serial()),
    algorithm,
    distinguished(issuer),
    sequence(moment(validity.from), moment(validity.until)),
    distinguished(subject),
    publicKey.export({ type: "spki", format: "der" }),
    tagged(3, sequence(...extensions, byKey), true),
  );
  const der = sequence(signed, algorithm, bits(sign("sha256", signed, privateKey)));
  const lines = der.toString("base64").match(/.{1,64}/g) ?? [];
  return `-----BEGIN CERTIFICATE-----\n${lines.join("\n")}\n-----END CERTIFICATE-----\n`;
}

/** Returns a serial number that is positive and not 0. */
function serial(): Buffer {
  const bytes = randomBytes(SERIAL_BYTES);
  bytes[0] = ((bytes[0] ?? 0) & 0x7f) | 0x40;
  return bytes;
}

const distinguished = (name: string): Buffer => sequence(set(sequence(oid(OID.commonName), utf8(name))));

const extension = (id: string, critical: boolean, content: Buffer): Buffer =>
  sequence(oid(id), ...(critical ? [boolean(true)] : []), octets(content));

/** Returns the identifier of a key: a digest of it (RFC 7093 section 2, 1: 160 bits of SHA-256). */
const keyId = (key: KeyObject): Buffer =>
  createHash("sha256")
    .update(key.export({ type: "spki", format: "der" }))
    .digest()
    .subarray(0, 20);
