import { createPrivateKey, type KeyObject, X509Certificate } from "node:crypto";
import { existsSync, mkdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { hostname, networkInterfaces } from "node:os";
import { dirname } from "node:path";
import { StartRefused } from "./start-refused.ts";

/** Source of the server's certificate. */
export type TlsChoice =
  | { is: "off" }
  /** Made at the first start and kept in these files. `names`: names and addresses besides this machine's own. */
  | { is: "own"; cert: string; key: string; names: readonly string[] }
  | { is: "files"; cert: string; key: string };

export interface Tls {
  cert: string;
  key: string;
  /** SHA-256 of the certificate, as browsers show it. */
  fingerprint: string;
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
/**
 * Browsers refuse a certificate valid for more than 398 days (CA/Browser Forum baseline requirements 6.3.2, from
 * memory).
 */
const OWN_DAYS = 397;
/** The server's own certificate is replaced when fewer days are left. */
const RENEW_DAYS = 30;

/**
 * Reads the certificate, or makes one.
 * @throws StartRefused says what is wrong with it and what to do
 */
export async function openTls(choice: TlsChoice, now: number): Promise<Tls | null> {
  if (choice.is === "off") return null;
  if (choice.is === "own" && needsNew(choice.cert, now)) await makeOwn(choice, now);
  const [cert, key] = [read(choice.cert), read(choice.key)];
  const x509 = understood(choice.cert, () => new X509Certificate(cert));
  const keyObject = understood(choice.key, () => createPrivateKey(key));
  if (!x509.checkPrivateKey(keyObject))
    throw new StartRefused(`${choice.key} is not the key of the certificate ${choice.cert}`);
  if (isWeak(keyObject))
    throw new StartRefused(`${choice.key} is too weak: take P-256 or RSA of 2048 bits or more`);
  if (Date.parse(x509.validTo) <= now)
    throw new StartRefused(`the certificate ${choice.cert} ran out on ${x509.validTo}: put a new one there`);
  if (choice.is === "own") onlyOurs(choice.key);
  return {
    cert,
    key,
    fingerprint: x509.fingerprint256,
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

async function makeOwn(choice: TlsChoice & { is: "own" }, now: number): Promise<void> {
  const { generate } = await import("selfsigned");
  const names = [...new Set([...ownNames(), ...choice.names])];
  const made = await generate([{ name: "commonName", value: "Chockside" }], {
    keyType: "ec",
    curve: "P-256",
    algorithm: "sha256",
    notBeforeDate: new Date(now - DAY_MS),
    notAfterDate: new Date(now + (OWN_DAYS - 1) * DAY_MS),
    extensions: [
      { name: "basicConstraints", cA: false, critical: true },
      { name: "keyUsage", digitalSignature: true, critical: true },
      { name: "extKeyUsage", serverAuth: true },
      {
        name: "subjectAltName",
        altNames: names.map((n) => (isAddress(n) ? { type: 7, ip: n } : { type: 2, value: n })),
      },
    ],
  });
  try {
    mkdirSync(dirname(choice.cert), { recursive: true });
    mkdirSync(dirname(choice.key), { recursive: true });
    writeFileSync(choice.key, made.private, { mode: 0o600, flush: true });
    writeFileSync(choice.cert, made.cert, { flush: true });
  } catch (error) {
    throw new StartRefused(`${choice.cert} cannot be made: ${(error as Error).message}`);
  }
}

function needsNew(file: string, now: number): boolean {
  if (!existsSync(file)) return true;
  const x509 = understood(file, () => new X509Certificate(read(file)));
  return Date.parse(x509.validTo) - now < RENEW_DAYS * DAY_MS;
}

function adviceOn(choice: TlsChoice, x509: X509Certificate, now: number): string | null {
  const days = Math.floor((Date.parse(x509.validTo) - now) / DAY_MS);
  if (choice.is === "files" && days < RENEW_DAYS) return `the certificate runs out in ${days} days`;
  if (choice.is !== "own") return null;
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
  // Windows has no such permission bits.
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
