import { createHmac, randomBytes, timingSafeEqual } from "node:crypto";
import type { Clock } from "../clock.ts";

/** Lifetime of a nonce. Milliseconds. */
export const NONCE_MS = 5 * 60_000;

const TIME_BYTES = 8;
const CHANCE_BYTES = 8;
const MAC_BYTES = 16;

/**
 * Issues nonces that the server can recognise and date without storing them: a time and random bytes under a MAC.
 * Servers with the same secret accept each other's nonces.
 */
export class Nonces {
  readonly #secret: Buffer;
  readonly #clock: Clock;

  constructor(secret: Buffer, clock: Clock) {
    this.#secret = secret;
    this.#clock = clock;
  }

  issue(): string {
    const body = Buffer.alloc(TIME_BYTES + CHANCE_BYTES);
    body.writeBigInt64BE(BigInt(Math.floor(this.#clock.now())));
    randomBytes(CHANCE_BYTES).copy(body, TIME_BYTES);
    return Buffer.concat([body, this.#mac(body)]).toString("base64url");
  }

  /**
   * Returns true when a server with our secret issued the nonce and it has not expired. A nonce from a server whose
   * clock is slightly ahead is good too.
   */
  isGood(nonce: string): boolean {
    const all = Buffer.from(nonce, "base64url");
    if (all.length !== TIME_BYTES + CHANCE_BYTES + MAC_BYTES) return false;
    const body = all.subarray(0, TIME_BYTES + CHANCE_BYTES);
    if (!timingSafeEqual(all.subarray(body.length), this.#mac(body))) return false;
    return Math.abs(this.#clock.now() - Number(body.readBigInt64BE())) < NONCE_MS;
  }

  #mac(body: Buffer): Buffer {
    return createHmac("sha256", this.#secret).update("nonce").update(body).digest().subarray(0, MAC_BYTES);
  }
}
