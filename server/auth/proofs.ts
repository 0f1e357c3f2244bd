import { createHash } from "node:crypto";
import { calculateJwkThumbprint, EmbeddedJWK, type JWK, jwtVerify } from "jose";
import { z } from "zod";
import type { Nonces } from "./nonces.ts";
import type { Taken } from "./taken.ts";

/** The request a proof must be for. */
export interface Proved {
  method: string;
  /** Without query. */
  path: string;
  /** What the request says it was sent to. */
  host: string | undefined;
  /** The token that goes with it, null where there is none yet. */
  token: string | null;
}

export type Proof =
  | { is: "proven"; thumbprint: string; publicKey: JWK }
  /** `nonce`: the proof may be good but for its nonce. */
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
 * Reads proofs of possession (DPoP, RFC 9449): short signed words in which a device's key says which request it is
 * for, so that a token copied from the device is useless without it. A proof is taken once. Its age is told by the
 * server's nonce alone: tablets' clocks are not to be trusted.
 */
export class Proofs {
  readonly #nonces: Nonces;
  readonly #taken: Taken;
  readonly #origins: readonly string[];

  /** @param origins addresses the panels may be served under beside the one a request names */
  constructor(nonces: Nonces, taken: Taken, origins: readonly string[]) {
    this.#nonces = nonces;
    this.#taken = taken;
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
        // The nonce dates it: what the device's clock says of its age counts for nothing.
        currentDate: new Date(0),
      });
      const claims = claimsSchema.parse(payload);
      const jwk = protectedHeader.jwk as JWK | undefined;
      if (!jwk || !this.#isFor(claims, proved)) return WRONG;
      if (!this.#nonces.isGood(claims.nonce)) return { is: "refused", why: "nonce" };
      const { kty, crv, x, y } = jwk as { kty: string; crv: string; x: string; y: string };
      const publicKey = { kty, crv, x, y };
      const thumbprint = await calculateJwkThumbprint(publicKey);
      if (!(await this.#taken.take(`${thumbprint} ${claims.jti}`))) return WRONG;
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

/** Whether an address is at that host; a port that goes without saying may be said. */
export function isHost(address: URL, host: string | undefined): boolean {
  return host !== undefined && new URL(`${address.protocol}//${host}`).host === address.host;
}
