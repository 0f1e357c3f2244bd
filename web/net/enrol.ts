import { wordsNow } from "../words/words.ts";
import { api } from "./app.ts";
import { openKeys, STORE, THIS } from "./deviceKey.ts";

/** Enrols this device by a code with a new key, which is kept only once the server took it. Its name. */
export async function enrol(code: string): Promise<string> {
  const pair = await makeKey();
  const { name } = await api.enrol(code, pair);
  await keepKey(pair);
  return name;
}

/** A new pair. @throws Error in words where this browser, at this address, has no keys */
async function makeKey(): Promise<CryptoKeyPair> {
  if (!globalThis.isSecureContext || !crypto.subtle) throw new Error(wordsNow().text.net.notSecure);
  return crypto.subtle.generateKey({ name: "ECDSA", namedCurve: "P-256" }, false, ["sign", "verify"]);
}

async function keepKey(pair: CryptoKeyPair): Promise<void> {
  const db = await openKeys();
  await db.put(STORE, pair, THIS);
  db.close();
}
