import { createPrivateKey, type KeyObject, X509Certificate } from "node:crypto";
import { existsSync, readFileSync, statSync } from "node:fs";
import { hostname, networkInterfaces } from "node:os";
import { StartRefused } from "./start-refused.ts";
import { type AuthorityFiles, makeAuthority, makeServerCertificate } from "./tls/authority.ts";

/** Source of the server's certificate. */
export type TlsChoice = { is: "off" } | OwnTls | { is: "files"; cert: string; key: string };

/**
 * Made at the first start and kept in these files, with an authority that devices trust. `names`: names and addresses
 * besides this machine's own.
 */
export interface OwnTls extends AuthorityFiles {
  is: "own";
  cert: string;
  key: string;
  names: readonly string[];
}

export interface Tls {
  cert: string;
  key: string;
  /** SHA-256 of what devices are told to trust, as they show it: the authority if there is one, else the certificate. */
  fingerprint: string;
  /** The authority's certificate; null when somebody else's or none. */
  root: string | null;
  /** True when somebody else issued it, so that browsers trust it without setup. */
  publiclyTrusted: boolean;
  /** Advice to the operator; null for none. */
  advice: string | null;
}

/**
 * Cipher suites: those of TLS 1.3, and those of TLS 1.2 with forward secrecy and authenticated encryption (RFC 9325
 * section 4.2, from memory). Browsers since 2015 support at least one.
 */
export const SUITES = [
  "TLS_AES_256_GCM_SHA384",
  "TLS_CHACHA20_POLY1305_SHA256",
  "TLS_AES_128_GCM_SHA256",
  "ECDHE-ECDSA-AES128-GCM-SHA256",
  "ECDHE-RSA-AES128-GCM-SHA256",
  "ECDHE-ECDSA-AES256-GCM-SHA384",
  "ECDHE-RSA-AES256-GCM-SHA384",
].join(":");

const DAY_MS = 24 * 3_600_000;
/** The server's own certificate is replaced when fewer days are left. */
const RENEW_DAYS = 30;

/**
 * Reads the certificate, or makes one.
 * @throws StartRefused says what is wrong with it and what to do
 */
export async function openTls(choice: TlsChoice, now: number): Promise<Tls | null> {
  if (choice.is === "off") return null;
  if (choice.is === "own" && needsNew(choice, now)) makeOwn(choice, now);
  const [cert, key] = [read(choice.cert), read(choice.key)];
  const x509 = understood(choice.cert, () => new X509Certificate(cert));
  const keyObject = understood(choice.key, () => createPrivateKey(key));
  if (!x509.checkPrivateKey(keyObject))
    throw new StartRefused(`${choice.key} is not the key of the certificate ${choice.cert}`);
  if (isWeak(keyObject))
    throw new StartRefused(`${choice.key} is too weak: take P-256 or RSA of 2048 bits or more`);
  if (Date.parse(x509.validTo) <= now)
    throw new StartRefused(`the certificate ${choice.cert} ran out on ${x509.validTo}: put a new one there`);
  if (choice.is === "own") for (const file of [choice.key, choice.rootKey]) onlyOurs(file);
  const root = choice.is === "own" && isUnder(x509, choice.root) ? read(choice.root) : null;
  return {
    cert,
    key,
    root,
    fingerprint: root ? new X509Certificate(root).fingerprint256 : x509.fingerprint256,
    publiclyTrusted: choice.is === "files" && x509.issuer !== x509.subject,
    advice: adviceOn(choice, x509, now),
  };
}

/** Returns this machine's name and addresses. */
function ownNames(): string[] {
  const addresses = Object.values(networkInterfaces())
    .flatMap((all) => all ?? [])
    // Nobody can type a link-local address into a browser.
    .filter((a) => !a.address.startsWith("fe80:"))
    .map((a) => a.address);
  return [...new Set(["localhost", hostname(), ...addresses])];
}

/** Makes a certificate, and before it an authority if there is none. */
function makeOwn(choice: OwnTls, now: number): void {
  const names = [...new Set([...ownNames(), ...choice.names])];
  if (!existsSync(choice.root)) makeAuthority(choice, names, now);
  makeServerCertificate(choice, choice, names, now);
}

/**
 * Returns true when the server cannot go on with its certificate, or should not and can make another. A server that was
 * killed while it made one may have left the key of another certificate.
 */
function needsNew(choice: OwnTls, now: number): boolean {
  const { cert, key, root, rootKey } = choice;
  if (!existsSync(cert) || !existsSync(key)) return true;
  const x509 = understood(cert, () => new X509Certificate(read(cert)));
  if (!x509.checkPrivateKey(understood(key, () => createPrivateKey(read(key))))) return true;
  const left = Date.parse(x509.validTo) - now;
  // An authority's key that is kept elsewhere need not be brought before the last day.
  return left < RENEW_DAYS * DAY_MS && (left <= 0 || existsSync(rootKey) || !existsSync(root));
}

const isUnder = (x509: X509Certificate, root: string): boolean =>
  existsSync(root) && x509.checkIssued(new X509Certificate(read(root)));

function adviceOn(choice: TlsChoice, x509: X509Certificate, now: number): string | null {
  const days = Math.floor((Date.parse(x509.validTo) - now) / DAY_MS);
  if (choice.is === "files" && days < RENEW_DAYS) return `the certificate runs out in ${days} days`;
  if (choice.is !== "own") return null;
  if (!isUnder(x509, choice.root))
    return `an earlier version made the certificate, and some devices refuse it: remove ${choice.cert} and start again for one under an authority`;
  if (days < RENEW_DAYS)
    return `the certificate runs out in ${days} days: bring ${choice.rootKey} back and start again`;
  const lacking = choice.names.filter((n) => !(isAddress(n) ? x509.checkIP(n) : x509.checkHost(n)));
  return lacking.length === 0
    ? null
    : `the certificate does not name ${lacking.join(", ")}: remove ${choice.cert} and start again for a new one`;
}

function isWeak(key: KeyObject): boolean {
  const { modulusLength, namedCurve } = key.asymmetricKeyDetails ?? {};
  if (key.asymmetricKeyType === "rsa") return (modulusLength ?? 0) < 2048;
  if (key.asymmetricKeyType === "ec")
    return !["prime256v1", "secp384r1", "secp521r1"].includes(namedCurve ?? "");
  return !["ed25519", "ed448", "rsa-pss"].includes(key.asymmetricKeyType ?? "");
}

function onlyOurs(file: string): void {
  // The authority's key may be kept elsewhere. Windows has no such permission bits.
  if (!existsSync(file)) return;
  if (process.platform !== "win32" && (statSync(file).mode & 0o077) !== 0)
    throw new StartRefused(
      `${file} can be read by others: run chmod 600 on it, and consider whether somebody copied it`,
    );
}

function isAddress(name: string): boolean {
  return /^[\d.]+$/.test(name) || name.includes(":");
}

function read(file: string): string {
  try {
    return readFileSync(file, "utf8");
  } catch (error) {
    throw new StartRefused(`${file} cannot be read: ${(error as Error).message}`);
  }
}

function understood<T>(file: string, parse: () => T): T {
  try {
    return parse();
  } catch {
    throw new StartRefused(`${file} is not in PEM form: put a certificate or key there that is`);
  }
}
