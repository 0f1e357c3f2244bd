import { createPrivateKey, createPublicKey, generateKeyPairSync, type KeyObject, sign } from "node:crypto";
import { mkdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";
import { type Signer, toHex } from "../../shared/evidence/note.ts";
import { StartRefused } from "../start-refused.ts";

/** Signs checkpoints and exports with the server's key. */
export interface EvidenceSigner extends Signer {
  /** The public key's 32 bytes, hexadecimal. */
  publicHex: string;
}

/**
 * Returns a signer.
 * @param key a private Ed25519 key
 */
export function signerOf(key: KeyObject): EvidenceSigner {
  const { x = "" } = createPublicKey(key).export({ format: "jwk" });
  const publicKey = Buffer.from(x, "base64url");
  return { publicKey, publicHex: toHex(publicKey), sign: (text) => sign(null, text, key) };
}

/**
 * Returns a signer with the key in a file (PKCS #8, PEM). With `ours`, a missing file is made, readable by this user
 * only.
 * @throws StartRefused when the key cannot be read or made, is not Ed25519, or others can read a key of ours
 */
export function openSigner({ file, ours }: { file: string; ours: boolean }): EvidenceSigner {
  const refuse = (why: string) => new StartRefused(`the signing key ${file} ${why}`);
  const pem = ours ? readOrMake(file, refuse) : readNamed(file, refuse);
  let key: KeyObject;
  try {
    key = createPrivateKey(pem);
  } catch {
    throw refuse("is no private key in PEM form: restore it, or name another in CHOCKSIDE_SIGNING_KEY");
  }
  if (key.asymmetricKeyType !== "ed25519")
    throw refuse("is not of Ed25519: make one with openssl genpkey -algorithm ed25519");
  return signerOf(key);
}

type Refuse = (why: string) => StartRefused;

function readNamed(file: string, refuse: Refuse): string {
  try {
    return readFileSync(file, "utf8");
  } catch (error) {
    throw refuse(`cannot be read: check CHOCKSIDE_SIGNING_KEY (${(error as Error).message})`);
  }
}

function readOrMake(file: string, refuse: Refuse): string {
  try {
    mkdirSync(dirname(file), { recursive: true });
    const { privateKey } = generateKeyPairSync("ed25519");
    const pem = privateKey.export({ type: "pkcs8", format: "pem" }).toString();
    try {
      writeFileSync(file, pem, { flag: "wx", mode: 0o600, flush: true });
      return pem;
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== "EEXIST") throw error;
    }
    // Windows has no such permission bits.
    if (process.platform !== "win32" && (statSync(file).mode & 0o077) !== 0)
      throw refuse("can be read by others: run chmod 600 on it, and consider whether somebody copied it");
    return readFileSync(file, "utf8");
  } catch (error) {
    if (error instanceof StartRefused) throw error;
    throw refuse(`cannot be read or made: ${(error as Error).message}`);
  }
}
