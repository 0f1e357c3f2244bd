import { z } from "zod";
import { evolveRecord } from "../aircraft/evolve.ts";
import type { AircraftRecord } from "../aircraft/record.ts";
import { evolve } from "../session/evolve.ts";
import type { SessionState } from "../session/state.ts";
import { isCanonical } from "./canonical.ts";
import { type Digest, genesis } from "./chain.ts";
import { eventOf, recordEventOf } from "./read.ts";

const hexSchema = z.string().regex(/^[0-9a-f]{64}$/);
const claimSchema = z.strictObject({
  session: z.string(),
  aircraft: z.string(),
  events: z.number().int().min(1),
  head: hexSchema,
  exportedAt: z.string(),
  /** The program and its version that wrote the export; earlier ones did not say. */
  program: z.string().optional(),
  caution: z.string(),
});
const signedSchema = claimSchema.extend({
  format: z.literal("chockside-evidence-2"),
  /** Public Ed25519 keys, hexadecimal: first the key that signed the export, then those of older checkpoints. */
  keys: z.array(hexSchema).min(1),
  /** Name and salt of each pseudonym, except those of erased people. */
  names: z.record(z.string(), z.strictObject({ name: z.string(), salt: z.string() })),
  /** Signed notes (`checkpoint.ts`), the smallest first; the last one covers the whole record. */
  checkpoints: z.array(z.string()).min(1),
});

/**
 * The manifest: what an export holds. Without it a chain cannot show that its tail was cut off. The first form had no
 * signature.
 */
export const manifestSchema = z.discriminatedUnion("format", [
  claimSchema.extend({ format: z.literal("chockside-evidence-1") }),
  signedSchema,
]);
export type Manifest = z.infer<typeof manifestSchema>;
export type SignedManifest = z.infer<typeof signedSchema>;

/** The statement about a record that its chain is checked against. */
export type Claim = Pick<Manifest, "session" | "aircraft" | "events" | "head">;

export type Verification =
  | { ok: true; events: number; head: string; state: SessionState | AircraftRecord }
  | { ok: false; line: number; why: string };

/**
 * Returns the result of checking an exported record: canonical bytes, contiguous numbers, unbroken chain, events that
 * replay, and the head that the manifest names. It names the first bad event line: 1-based; the line after the last
 * means that the tail was cut, 0 means the manifest. A chain alone cannot show that its keeper rewrote all of it: only
 * a head kept elsewhere can.
 */
export function verify(lines: readonly string[], manifest: Claim, digest: Digest): Verification {
  let state: SessionState | AircraftRecord | null = null;
  let head = genesis(manifest.session, digest);
  const next = replayer();
  for (const [i, line] of lines.entries()) {
    const bad = (why: string): Verification => ({ ok: false, line: i + 1, why });
    try {
      const json: unknown = JSON.parse(line);
      const { event, prev, replayed } = next(json);
      if (!isCanonical(line, json)) return bad("not the canonical bytes");
      if (event.seq !== i + 1) return bad(`number ${event.seq} stands where ${i + 1} is due`);
      if (prev !== head) return brokenLink(lines, i, manifest, digest);
      if (state !== null && event.at < state.at) return bad("its time is before that of the line above");
      state = replayed();
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
  if (state.aircraft !== manifest.aircraft)
    return {
      ok: false,
      line: 0,
      why: `the manifest names ${manifest.aircraft}, the record ${state.aircraft}`,
    };
  return { ok: true, events: lines.length, head, state };
}

interface Line {
  event: { seq: number; at: number };
  prev: string;
  /** Replays it after those before, and returns what they make. */
  replayed(): SessionState | AircraftRecord;
}

/** Returns a reader of one record's lines, in order: a session's, or an aircraft's own, which begins by being opened. */
function replayer(): (json: unknown) => Line {
  let session: SessionState | null = null;
  let record: AircraftRecord | null = null;
  return (json) => {
    if (record !== null || (session === null && isOpening(json))) {
      const { event, prev } = recordEventOf(json);
      return { event, prev, replayed: () => (record = evolveRecord(record, event)) };
    }
    const { event, prev } = eventOf(json);
    return { event, prev, replayed: () => (session = evolve(session, event)) };
  };
}

function isOpening(json: unknown): boolean {
  return (json as { fact?: { type?: unknown } } | null)?.fact?.type === "opened";
}

/**
 * Line `i` does not hold the hash of the line above it, so one of the two was altered. A line that the line below still
 * confirms was not.
 */
function brokenLink(lines: readonly string[], i: number, manifest: Claim, digest: Digest): Verification {
  if (i === 0) return { ok: false, line: 1, why: "does not begin this session's chain" };
  const vouched = digest(lines[i] ?? "") === chainedBelow(lines, i, manifest);
  return vouched
    ? { ok: false, line: i, why: "its bytes are not those the next line was chained to" }
    : { ok: false, line: i + 1, why: "it is not chained to the line above" };
}

function chainedBelow(lines: readonly string[], i: number, manifest: Claim): string | null {
  const below = lines[i + 1];
  if (below === undefined) return manifest.head;
  try {
    const { prev } = JSON.parse(below) as { prev?: unknown };
    return typeof prev === "string" ? prev : null;
  } catch {
    return null;
  }
}
