import { openDB } from "idb";

/**
 * The key of this device: P-256 (FIPS 186-5), made here, of which no script can read the private half. IndexedDB keeps
 * it for the whole browser, as long as nobody clears the site's data.
 */
const DATABASE = "chockside-device";
export const STORE = "key";
export const THIS = "this";

/** Also read where a key is put. */
export const openKeys = () => openDB(DATABASE, 1, { upgrade: (db) => void db.createObjectStore(STORE) });

/** Null on a device that was not enrolled, or whose browser keeps nothing. */
export async function keptKey(): Promise<CryptoKeyPair | null> {
  try {
    const db = await openKeys();
    const kept: unknown = await db.get(STORE, THIS);
    db.close();
    return isPair(kept) ? kept : null;
  } catch {
    return null;
  }
}

function isPair(kept: unknown): kept is CryptoKeyPair {
  const { privateKey, publicKey } = (kept ?? {}) as Partial<CryptoKeyPair>;
  return privateKey instanceof CryptoKey && publicKey instanceof CryptoKey;
}
