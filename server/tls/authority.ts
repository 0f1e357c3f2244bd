import {
  createPrivateKey,
  createPublicKey,
  generateKeyPairSync,
  type KeyObject,
  X509Certificate,
} from "node:crypto";
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";
import { StartRefused } from "../start-refused.ts";
import { authorityCertificate, serverCertificate } from "./certificate.ts";
import { type Constraint, permits } from "./general-name.ts";

const DAY_MS = 24 * 3_600_000;
/** Days that the authority is valid: a device that trusts it is not set up again while it lasts. */
const AUTHORITY_DAYS = 3_650;
/**
 * Days that a server's certificate is valid. Apple's devices refuse more than 825 days under an authority that a person
 * added (Apple support document 103769, from memory), and public authorities give 398 days at most (CA/Browser Forum
 * baseline requirements 6.3.2, from memory; the limit falls from 2026 on, for public ones alone).
 */
const SERVER_DAYS = 397;

/**
 * Names and networks that no public authority signs for: RFC 6761, RFC 6762, RFC 8375, ICANN's reservation of
 * .internal (2024, from memory), RFC 1918, RFC 3927, RFC 4193, RFC 4291, RFC 1122 and RFC 6598.
 */
const PRIVATE: readonly Constraint[] = [
  ...["localhost", "local", "home.arpa", "internal", "lan"].map((name) => ({ is: "dns" as const, name })),
  ...(
    [
      ["10.0.0.0", 8],
      ["172.16.0.0", 12],
      ["192.168.0.0", 16],
      ["169.254.0.0", 16],
      ["100.64.0.0", 10],
      ["127.0.0.0", 8],
      ["::1", 128],
      ["fc00::", 7],
      ["fe80::", 10],
    ] as const
  ).map(([address, bits]) => ({ is: "network" as const, address, bits })),
];

/** The files of an authority. The key may be kept elsewhere until a new certificate is needed. */
export interface AuthorityFiles {
  root: string;
  rootKey: string;
}

interface Authority {
  name: string;
  publicKey: KeyObject;
  privateKey: KeyObject;
}

/** Returns the constraints under which these names can be signed: what is private, and each name itself. */
export function constraintsFor(names: readonly string[]): Constraint[] {
  const own = names.filter((name) => !PRIVATE.some((c) => permits(c, name)));
  return [...PRIVATE, ...own.map(exactly)];
}

const exactly = (name: string): Constraint =>
  /^[\d.]+$/.test(name) || name.includes(":")
    ? { is: "network", address: name, bits: name.includes(":") ? 128 : 32 }
    : { is: "dns", name };

/**
 * Makes an authority whose names are limited to private ones and these. Its key is written first: without its
 * certificate it is worth nothing.
 */
export function makeAuthority(
  { root, rootKey }: AuthorityFiles,
  names: readonly string[],
  now: number,
): void {
  const keys = generateKeyPairSync("ec", { namedCurve: "P-256" });
  const name = `Chockside authority ${new Date(now).toISOString().slice(0, 10)}`;
  const validity = { from: now - DAY_MS, until: now + AUTHORITY_DAYS * DAY_MS };
  const cert = authorityCertificate(name, keys, validity, constraintsFor(names));
  written(rootKey, keys.privateKey.export({ type: "pkcs8", format: "pem" }).toString(), 0o600);
  written(root, cert, 0o644);
}

/**
 * Makes a server's certificate for these names, and its key.
 * @throws StartRefused when the authority's key is not there
 */
export function makeServerCertificate(
  { root, rootKey }: AuthorityFiles,
  files: { cert: string; key: string },
  names: readonly string[],
  now: number,
): void {
  const authority = readAuthority({ root, rootKey });
  const keys = generateKeyPairSync("ec", { namedCurve: "P-256" });
  const validity = { from: now - DAY_MS, until: now + (SERVER_DAYS - 1) * DAY_MS };
  const cert = serverCertificate("Chockside", keys.publicKey, authority, validity, names);
  written(files.key, keys.privateKey.export({ type: "pkcs8", format: "pem" }).toString(), 0o600);
  written(files.cert, cert, 0o644);
}

function readAuthority({ root, rootKey }: AuthorityFiles): Authority {
  if (!existsSync(rootKey))
    throw new StartRefused(
      `a new certificate is needed, and ${rootKey} is not there: bring the authority's key back for this start`,
    );
  const x509 = new X509Certificate(readFileSync(root));
  const privateKey = createPrivateKey(readFileSync(rootKey));
  if (!x509.checkPrivateKey(privateKey))
    throw new StartRefused(`${rootKey} is not the key of the authority ${root}`);
  const name = /^CN=(.*)$/m.exec(x509.subject)?.[1] ?? "";
  return { name, publicKey: createPublicKey(privateKey), privateKey };
}

function written(file: string, text: string, mode: number): void {
  try {
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, text, { mode, flush: true });
  } catch (error) {
    throw new StartRefused(`${file} cannot be made: ${(error as Error).message}`);
  }
}
