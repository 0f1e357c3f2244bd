import { z } from "zod";
import type { SessionState } from "../session/state.ts";
import { commandSchema, type Send } from "./commands.ts";
import type { SessionEvent } from "./events.ts";
import type { Post } from "./posts.ts";
import type { CommandResult } from "./refusal.ts";
import { idSchema } from "./text.ts";

/** The first message of a panel, when it connects. The token travels here only, never in a URL. */
export const handshakeSchema = z.strictObject({
  token: z.string().min(20).max(200),
  proto: z.number().int(),
  /** DPoP proof (RFC 9449) of an enrolled device's key for `GET /live`. */
  proof: z.string().max(2_000).optional(),
});

export const watchSchema = z.strictObject({
  session: idSchema,
  /** The last event the panel holds, 0 for none. */
  since: z.number().int().nonnegative(),
});
export type Watch = z.infer<typeof watchSchema>;

/** A command as it is sent, with the permit that its person's PIN gave, if it needs one. */
export const sentSchema = commandSchema.extend({ permit: z.string().max(200).optional() });

export type Sent = z.infer<typeof sentSchema>;

/**
 * Brings a panel up to `head`: the whole state if the panel has none or is too far behind, else the events that it
 * lacks.
 */
export type Sync =
  | { session: string; head: number; serverNow: number; state: SessionState }
  | { session: string; head: number; serverNow: number; events: SessionEvent[] };

/** The person at each post's panel and when it was last heard, server milliseconds; null when not connected. */
export type Links = Record<Post, { connected: boolean; lastHeard: number | null }>;

export interface Beat {
  session: string;
  head: number;
  serverNow: number;
  links: Links;
}

/**
 * A hold, cut, fire or turning report that the server could not record. It is broadcast so that people can act. No
 * state and no record will hold it, so people must also give it by hand signals.
 */
export interface Unrecorded {
  session: string;
  action: Send;
  by: { id: string; name: string; post: Post | null };
  /** Server milliseconds. */
  at: number;
}

/** Reasons why a socket's request failed before any session saw it. */
export const WIRE_ERRORS = [
  "malformed",
  "tooLarge",
  "tooMany",
  "protocolMismatch",
  "signInNeeded",
  "proofNeeded",
  "pinNeeded",
  "noSuchSession",
  "notAvailable",
] as const;
export type WireError = (typeof WIRE_ERRORS)[number];

export interface Trouble {
  status: "error";
  error: WireError;
  message: string;
}

export interface ClientToServer {
  command(command: unknown, answer: (result: CommandResult | Trouble) => void): void;
  watch(watch: unknown, answer: (result: Sync | Trouble) => void): void;
  unwatch(session: unknown): void;
  /** Clock exchange (RFC 5905 section 8): T1 goes out, T2 and T3 come back. */
  time(t1: unknown, answer: (times: { t2: number; t3: number }) => void): void;
}

export interface ServerToClient {
  events(batch: { session: string; events: SessionEvent[] }): void;
  beat(beat: Beat): void;
  unrecorded(notice: Unrecorded): void;
  /** It became possible or impossible to record. A panel that connects may record until it is told otherwise. */
  recording(notice: { able: boolean }): void;
  /** The list of sessions changed: one was planned, reached a stage, or a post of it was offered, accepted or left. */
  ramp(): void;
  bye(notice: { why: "restarting" | "signedOut" | "protocolMismatch"; retryAfterMs: number }): void;
}
