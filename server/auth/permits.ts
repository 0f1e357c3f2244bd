import { createHmac, timingSafeEqual } from "node:crypto";
import type { Clock } from "../clock.ts";

/** Lifetime of a permit, from the entry of the PIN to the recording of the command. Milliseconds. */
const PERMIT_MS = 60_000;

const TIME_BYTES = 8;
const MAC_BYTES = 32;

/** The use of a permit: one command of one session, from one sign-in. */
export interface Permitted {
  signIn: string;
  session: string;
  /** The command's id. A command acts once, so the permit is used once. */
  command: string;
}

/**
 * Issues short-lived tokens which show that a person just entered their PIN for one command. They are signed with the
 * servers' shared secret and not stored, so every server accepts them.
 */
export class Permits {
  readonly #secret: Buffer;
  readonly #clock: Clock;

  constructor(secret: Buffer, clock: Clock) {
    this.#secret = secret;
    this.#clock = clock;
  }

  issue(what: Permitted): { permit: string; expiresAt: number } {
    const expiresAt = Math.floor(this.#clock.now()) + PERMIT_MS;
    const time = Buffer.alloc(TIME_BYTES);
    time.writeBigInt64BE(BigInt(expiresAt));
    return { permit: Buffer.concat([time, this.#mac(time, what)]).toString("base64url"), expiresAt };
  }

  isGood(permit: string, what: Permitted): boolean {
    const all = Buffer.from(permit, "base64url");
    if (all.length !== TIME_BYTES + MAC_BYTES) return false;
    const time = all.subarray(0, TIME_BYTES);
    if (!timingSafeEqual(all.subarray(TIME_BYTES), this.#mac(time, what))) return false;
    return this.#clock.now() < Number(time.readBigInt64BE());
  }

  #mac(time: Buffer, { signIn, session, command }: Permitted): Buffer {
    const what = JSON.stringify([signIn, session, command]);
    return createHmac("sha256", this.#secret).update("permit").update(time).update(what).digest();
  }
}
