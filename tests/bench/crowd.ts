import { randomUUID } from "node:crypto";
import { type Demo, demo } from "../../seed/demo-data.ts";
import { readConfig } from "../../server/config.ts";
import { seedDemo } from "../../server/demo.ts";
import { sha256 } from "../../server/sha256.ts";
import { openStores } from "../../server/store/stores.ts";
import { POSTS } from "../../shared/protocol/posts.ts";

const DAY_MS = 24 * 3_600_000;
/** The lowest cost the hash allows, because nobody signs in with these PINs. */
const CHEAP = { memoryCost: 8, timeCost: 1, parallelism: 1 };

/** Panels that one person holds at once, below the server's own bound. */
export const PANELS_EACH = 10;

/** Returns the number of people needed for this many panels on one session. */
export const perPanels = (panels: number): number => Math.ceil(panels / PANELS_EACH);

/** Returns the person of a panel: the first panels of session `i` belong to person `i`. */
export function tokenOf(
  tokens: readonly string[],
  sessions: number,
  i: number,
  panel: number,
  each = PANELS_EACH,
): string {
  return tokens[(i + sessions * Math.floor(panel / each)) % tokens.length] ?? "";
}

/**
 * Adds people with a sign-in each to the database that a server is about to open, because no person and no device
 * may hold as many sockets as a measurement needs, and these aircraft. Returns the people's tokens.
 */
export async function crowd(
  environment: Record<string, string>,
  count: number,
  aircraft: Demo["aircraft"] = [],
): Promise<string[]> {
  const { directory, close } = await openStores(readConfig(environment), Date.now());
  const now = Date.now();
  await seedDemo(directory, { ...demo, aircraft: [...demo.aircraft, ...aircraft] }, now, CHEAP);
  const tokens: string[] = [];
  for (let n = 0; n < count; n += 1) {
    const id = `bench-${n}`;
    const token = randomUUID() + randomUUID();
    const person = { id, handle: id, name: `Bench ${n}`, mayHold: [...POSTS], active: true, demo: false };
    await directory.addPeople([{ ...person, pinHash: "none", createdAt: now }]);
    const device = { deviceId: `${id}-device`, deviceName: "Bench", thumbprint: null };
    const times = { createdAt: now, expiresAt: now + DAY_MS, usedAt: now, revokedAt: null };
    const signIn = { id: randomUUID(), personId: id, tokenHash: sha256(token), ...device, ...times };
    await directory.addSignIn(signIn);
    tokens.push(token);
  }
  await close();
  return tokens;
}
