/** The request that a proof is for. */
export interface Proved {
  method: string;
  path: string;
  /** The last nonce the server sent. */
  nonce: string;
  /** The token sent with the request, or null when there is none yet. */
  token: string | null;
}

const text = (value: unknown) => base64url(new TextEncoder().encode(JSON.stringify(value)));

/** Returns a DPoP proof (RFC 9449 section 4.2): the request, signed with this device's key. */
export async function proofFor(
  { privateKey, publicKey }: CryptoKeyPair,
  { method, path, nonce, token }: Proved,
): Promise<string> {
  const { kty, crv, x, y } = await crypto.subtle.exportKey("jwk", publicKey);
  const header = { typ: "dpop+jwt", alg: "ES256", jwk: { kty, crv, x, y } };
  const claims = {
    jti: crypto.randomUUID(),
    htm: method,
    htu: location.origin + path.split("?")[0],
    iat: Math.floor(Date.now() / 1000),
    nonce,
    ...(token === null ? {} : { ath: await digest(token) }),
  };
  const signed = `${text(header)}.${text(claims)}`;
  const how = { name: "ECDSA", hash: "SHA-256" };
  const signature = await crypto.subtle.sign(how, privateKey, new TextEncoder().encode(signed));
  return `${signed}.${base64url(new Uint8Array(signature))}`;
}

async function digest(token: string): Promise<string> {
  return base64url(new Uint8Array(await crypto.subtle.digest("SHA-256", new TextEncoder().encode(token))));
}

function base64url(bytes: Uint8Array): string {
  const plain = btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(""));
  return plain.replaceAll("+", "-").replaceAll("/", "_").replaceAll("=", "");
}
