import { z } from "zod";
import { evolve } from "../session/evolve.ts";
import type { SessionState } from "../session/state.ts";
import { canonical } from "./canonical.ts";
import { type Digest, genesis } from "./chain.ts";
import { readSealed } from "./read.ts";

/** Says what an export holds. Without it a chain cannot show that its tail was cut off. */
export const manifestSchema = z.strictObject({
  format: z.literal("chockside-evidence-1"),
  session: z.string(),
  aircraft: z.string(),
  events: z.number().int().min(1),
  head: z.string().regex(/^[0-9a-f]{64}$/),
  exportedAt: z.string(),
  caution: z.string(),
});
export type Manifest = z.infer<typeof manifestSchema>;

export type Verification =
  | { ok: true; events: number; head: string; state: SessionState }
  | { ok: false; line: number; why: string };

/**
 * Checks an exported record: canonical bytes, unbroken chain, contiguous numbers, events that replay, and the head the
 * manifest names. Names the first bad line (1-based; the line after the last means the tail was cut).
 */
export function verify(lines: readonly string[], manifest: Manifest, digest: Digest): Verification {
  let state: SessionState | null = null;
  let head = genesis(manifest.session, digest);
  for (const [i, line] of lines.entries()) {
    const bad = (why: string): Verification => ({ ok: false, line: i + 1, why });
    try {
      const { event, prev } = readSealed(line);
      if (canonical(JSON.parse(line)) !== line) return bad("not the canonical bytes");
      // A changed line shows as the next line's broken link: its own bytes no longer give the hash that line holds.
      if (prev !== head)
        return i === 0
          ? bad("does not begin this session's chain")
          : { ok: false, line: i, why: "its bytes are not those the next line was chained to" };
      state = evolve(state, event);
      head = digest(line);
    } catch (error) {
      return bad(error instanceof Error ? error.message : "unreadable");
    }
  }
  if (state === null) return { ok: false, line: 1, why: "no events" };
  if (lines.length !== manifest.events) {
    return {
      ok: false,
      line: lines.length + 1,
      why: `the manifest names ${manifest.events} events, the file holds ${lines.length}`,
    };
  }
  if (head !== manifest.head)
    return { ok: false, line: lines.length, why: "its hash is not the manifest's head" };
  return { ok: true, events: lines.length, head, state };
}
