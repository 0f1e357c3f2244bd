import { openDB } from "idb";

/**
 * The key of this device: P-256 (FIPS 186-5), generated here. Scripts cannot export the private key. IndexedDB keeps
 * it for the whole browser until the site's data is cleared.
 */
const DATABASE = "chockside-device";
export const STORE = "key";
export const THIS = "this";

/** Opens the database of keys; also used where a key is stored. */
export const openKeys = () => openDB(DATABASE, 1, { upgrade: (db) => void db.createObjectStore(STORE) });

/** Returns the stored key, or null when the device is not enrolled or the browser stores nothing. */
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
