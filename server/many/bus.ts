import { z } from "zod";
import { sendSchema } from "../../shared/protocol/commands.ts";
import { postSchema } from "../../shared/protocol/enums.ts";

/** The last moment at which one server heard each post's holder, server milliseconds. */
const heardSchema = z.partialRecord(postSchema, z.number());
export type LastHeard = z.infer<typeof heardSchema>;

/** A recorded event, sent along to save the receiver a read. */
const sealedSchema = z.object({ seq: z.number(), body: z.string(), hash: z.string() });

/**
 * A message between servers on one database. Messages may be lost, repeated or late: that only adds latency, because
 * each server reads the database unless the announced events continue its own chain. Only a stop that could not be
 * recorded exists in the message alone.
 */
export const peerMessageSchema = z.discriminatedUnion("is", [
  z.object({
    is: z.literal("moved"),
    session: z.string(),
    seq: z.number(),
    events: z.array(sealedSchema).optional(),
  }),
  z.object({
    is: z.literal("unrecorded"),
    notice: z.object({
      session: z.string(),
      action: sendSchema,
      by: z.object({ id: z.string(), name: z.string(), post: postSchema.nullable() }),
      at: z.number(),
    }),
  }),
  /** An aircraft's record has more events. */
  z.object({ is: z.literal("recordMoved"), aircraft: z.string() }),
  /** People, aircraft or types of the house changed. */
  z.object({ is: z.literal("houseMoved") }),
  z.object({ is: z.literal("signedOut"), signIn: z.string() }),
  z.object({ is: z.literal("heard"), server: z.string(), sessions: z.record(z.string(), heardSchema) }),
]);
export type PeerMessage = z.infer<typeof peerMessageSchema>;

export interface Bus {
  /** True while messages can be sent and received, as far as is known. */
  readonly up: boolean;
  send(message: PeerMessage): void;
  /** Calls `message` for each message of another server, and `back` whenever messages may have been lost. */
  listen(listener: { message(message: PeerMessage): void; back(): void }): void;
  close(): Promise<void>;
}

/** The bus of a single server, or of servers that share the database only. */
export const NO_BUS: Bus = { up: false, send() {}, listen() {}, async close() {} };

/** The connection of this server to the others on its database. */
export interface Others {
  bus: Bus;
  /** This server's name among them. */
  server: string;
  /**
   * Begins to serve. Runs `alone` first when no other server is running, so that nobody watched the sessions
   * meanwhile.
   */
  enter(alone: () => Promise<void>): Promise<void>;
}
