import { createHash } from "node:crypto";
import { calculateJwkThumbprint, EmbeddedJWK, type JWK, jwtVerify } from "jose";
import { z } from "zod";
import type { Nonces } from "./nonces.ts";
import type { SingleUse } from "./single-use.ts";

/** The request that a proof must match. */
export interface Proved {
  method: string;
  /** Without the query. */
  path: string;
  /** The request's Host header. */
  host: string | undefined;
  /** The access token sent with it; null before sign-in. */
  token: string | null;
}

export type Proof =
  | { is: "proven"; thumbprint: string; publicKey: JWK }
  /** `nonce`: all was valid except the nonce, so the client can try again with a new one. */
  | { is: "refused"; why: "nonce" | "wrong" };

const WRONG: Proof = { is: "refused", why: "wrong" };

const claimsSchema = z.object({
  jti: z.string().min(16).max(64),
  htm: z.string(),
  htu: z.url().max(500),
  nonce: z.string().max(100),
  ath: z.string().optional(),
});

/**
 * Verifies proofs of possession (DPoP, RFC 9449). The device's key signs the request's method and address, so a token
 * copied from the device is useless alone. Each proof is accepted once. Only the server's nonce dates it, because the
 * clocks of tablets are unreliable.
 */
export class Proofs {
  readonly #nonces: Nonces;
  readonly #singleUse: SingleUse;
  readonly #origins: readonly string[];

  /** @param origins addresses the panels may be served at, besides the request's Host */
  constructor(nonces: Nonces, singleUse: SingleUse, origins: readonly string[]) {
    this.#nonces = nonces;
    this.#singleUse = singleUse;
    this.#origins = origins;
  }

  nonce(): string {
    return this.#nonces.issue();
  }

  async read(proof: string, proved: Proved): Promise<Proof> {
    if (proof.length > 2_000) return WRONG;
    try {
      const { payload, protectedHeader } = await jwtVerify(proof, EmbeddedJWK, {
        typ: "dpop+jwt",
        algorithms: ["ES256"],
        // Ignore the device's clock: the nonce dates the proof.
        currentDate: new Date(0),
      });
      const claims = claimsSchema.parse(payload);
      const jwk = protectedHeader.jwk as JWK | undefined;
      if (!jwk || !this.#isFor(claims, proved)) return WRONG;
      if (!this.#nonces.isGood(claims.nonce)) return { is: "refused", why: "nonce" };
      const { kty, crv, x, y } = jwk as { kty: string; crv: string; x: string; y: string };
      const publicKey = { kty, crv, x, y };
      const thumbprint = await calculateJwkThumbprint(publicKey);
      if (!(await this.#singleUse.take(`${thumbprint} ${claims.jti}`))) return WRONG;
      return { is: "proven", thumbprint, publicKey };
    } catch {
      return WRONG;
    }
  }

  #isFor(claims: z.infer<typeof claimsSchema>, { method, path, host, token }: Proved): boolean {
    const address = new URL(claims.htu);
    const here = isHost(address, host) || this.#origins.includes(address.origin);
    const ath = token === null ? undefined : createHash("sha256").update(token).digest("base64url");
    return claims.htm === method && address.pathname === path && here && claims.ath === ath;
  }
}

/** Returns true when the address is at that host; the scheme's default port may be written or left out. */
export function isHost(address: URL, host: string | undefined): boolean {
  return host !== undefined && new URL(`${address.protocol}//${host}`).host === address.host;
}
