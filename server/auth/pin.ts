import { hash, verify } from "@node-rs/argon2";

/**
 * Cost of one argon2id hash: the first recommendation of OWASP's password storage cheat sheet: 19 MiB, 2 passes, 1
 * lane.
 */
export const PIN_COST = { memoryCost: 19_456, timeCost: 2, parallelism: 1 } as const;
export type PinCost = { memoryCost: number; timeCost: number; parallelism: number };

/** Returns the encoded argon2id hash. argon2id is the library's default, and the encoding names it. */
export function hashPin(pin: string, cost: PinCost = PIN_COST): Promise<string> {
  return hash(pin, cost);
}

export function isPin(pinHash: string, pin: string): Promise<boolean> {
  return verify(pinHash, pin);
}
