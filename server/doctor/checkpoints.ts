import { bad, type Finding, ok, watch } from "./finding.ts";

const AT = "checkpoints";

/** Lists the recorded checkpoints by key, in either database. */
export const SIGNED_BY = `SELECT "publicKey", count(*) AS "checkpoints", max("at") AS "newest" FROM "Checkpoint" GROUP BY "publicKey"`;

/** The recorded checkpoints that one key signed. */
export interface SignedBy {
  /** Public key, hexadecimal, as recorded. */
  publicKey: string;
  checkpoints: number;
  /** Server time of the newest, milliseconds. */
  newest: number;
}

/**
 * Compares the signing key with the keys of the recorded checkpoints.
 * @param publicHex the server's public key, hexadecimal; null when the signing key cannot be read
 */
export function checkpointFinding(publicHex: string | null, signed: readonly SignedBy[]): Finding {
  const newest = signed.reduce<SignedBy | null>((a, b) => (a === null || b.newest > a.newest ? b : a), null);
  if (newest === null) return ok(AT, "none recorded yet");
  if (publicHex === null)
    return bad(
      AT,
      `the newest was signed with the key ${newest.publicKey}, and the signing key cannot be read`,
      "restore your copy of that key before the next start",
    );
  if (newest.publicKey !== publicHex)
    return bad(
      AT,
      `the newest was signed with the key ${newest.publicKey}, the signing key is ${publicHex}`,
      "restore the signing key that the server had; if you changed it on purpose, note both keys and the day",
    );
  const others = signed.filter((by) => by.publicKey !== publicHex);
  if (others.length === 0) return ok(AT, `${newest.checkpoints}, all of the signing key ${publicHex}`);
  return watch(
    AT,
    `older ones are of other keys: ${others.map((by) => `${by.checkpoints} of ${by.publicKey}`).join(", ")}`,
    "compare these with the keys that this installation had",
  );
}
