import { hash, verify } from "@node-rs/argon2";

/** Cost of one argon2id: OWASP's first recommendation for it (password storage cheat sheet): 19 MiB, 2 passes, 1 lane. */
export const PIN_COST = { memoryCost: 19_456, timeCost: 2, parallelism: 1 } as const;
export type PinCost = { memoryCost: number; timeCost: number; parallelism: number };

/** argon2id is the library's default algorithm; the encoded form says so. */
export function hashPin(pin: string, cost: PinCost = PIN_COST): Promise<string> {
  return hash(pin, cost);
}

export function isPin(pinHash: string, pin: string): Promise<boolean> {
  return verify(pinHash, pin);
}
