import { z } from "zod";
import { sendSchema } from "../../shared/protocol/commands.ts";
import { postSchema } from "../../shared/protocol/enums.ts";

/** When the panel of each post's holder was last heard by one server, server milliseconds. */
const heardSchema = z.partialRecord(postSchema, z.number());
export type Heard = z.infer<typeof heardSchema>;

/** An event as it was recorded, so that nobody has to read it again. */
const sealedSchema = z.object({ seq: z.number(), body: z.string(), hash: z.string() });

/**
 * What servers on one record tell each other. A word may be lost, doubled or late: that costs time and never the truth,
 * which each of them reads from the record unless the events told are the next links of the chain it holds. Only a stop
 * that could not be recorded travels in the word alone.
 */
export const wordSchema = z.discriminatedUnion("is", [
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
  z.object({ is: z.literal("signedOut"), signIn: z.string() }),
  z.object({ is: z.literal("heard"), server: z.string(), sessions: z.record(z.string(), heardSchema) }),
]);
export type Word = z.infer<typeof wordSchema>;

export interface Bus {
  /** Whether words come and go now, as far as is known. */
  readonly up: boolean;
  say(word: Word): void;
  /** Calls `word` with each word of another server, and `back` whenever some may have been missed. */
  listen(listener: { word(word: Word): void; back(): void }): void;
  close(): Promise<void>;
}

/** The bus of a server that is alone, or whose neighbours have only the record to meet at. */
export const SILENCE: Bus = { up: false, say() {}, listen() {}, async close() {} };

/** What a server must know of the others on its record. */
export interface Others {
  bus: Bus;
  /** This server's own name among them. */
  server: string;
  /** Begins to serve: `alone` is done first when no other server is there to have watched the sessions meanwhile. */
  enter(alone: () => Promise<void>): Promise<void>;
}
