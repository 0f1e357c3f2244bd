import { wordsNow } from "../words/words.ts";
import { api } from "./app.ts";
import { openKeys, STORE, THIS } from "./deviceKey.ts";

/**
 * Enrols this device by a code with a new key and returns the device's name. The key is stored only after the server
 * accepted it.
 */
export async function enrol(code: string): Promise<string> {
  const pair = await makeKey();
  const { name } = await api.enrol(code, pair);
  await keepKey(pair);
  return name;
}

/** Returns a new key pair. @throws Error with words for the person when the page is not in a secure context */
async function makeKey(): Promise<CryptoKeyPair> {
  if (!globalThis.isSecureContext || !crypto.subtle) throw new Error(wordsNow().text.net.notSecure);
  return crypto.subtle.generateKey({ name: "ECDSA", namedCurve: "P-256" }, false, ["sign", "verify"]);
}

async function keepKey(pair: CryptoKeyPair): Promise<void> {
  const db = await openKeys();
  await db.put(STORE, pair, THIS);
  db.close();
}
