import { z } from "zod";
import { sendSchema } from "../../shared/protocol/commands.ts";
import { postSchema } from "../../shared/protocol/enums.ts";
import { eventSchema } from "../../shared/protocol/events.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import { idSchema } from "../../shared/protocol/text.ts";
import { PROTOCOL } from "../../shared/protocol/version.ts";
import {
  type ClientToServer,
  handshakeSchema,
  type ServerToClient,
  sentSchema,
  watchSchema,
} from "../../shared/protocol/wire.ts";
import { VERSION } from "../version.ts";
import { LIVE_PATH } from "./io.ts";

const link = z.strictObject({ connected: z.boolean(), lastHeard: z.number().nullable() });
const links = z.strictObject(
  Object.fromEntries(POSTS.map((post) => [post, link])) as Record<Post, typeof link>,
);

/** The schema of each message that the server sends; null for one without a value. Total by type. */
export const SENT: {
  [K in keyof ServerToClient]: Parameters<ServerToClient[K]> extends [infer V] ? z.ZodType<V> : null;
} = {
  events: z.strictObject({ session: z.string(), events: z.array(eventSchema) }),
  beat: z.strictObject({ session: z.string(), head: z.number(), serverNow: z.number(), links }),
  unrecorded: z.strictObject({
    session: z.string(),
    action: sendSchema,
    by: z.strictObject({ id: z.string(), name: z.string(), post: postSchema.nullable() }),
    at: z.number(),
  }),
  recording: z.strictObject({ able: z.boolean() }),
  ramp: null,
  bye: z.strictObject({
    why: z.enum(["restarting", "signedOut", "protocolMismatch"]),
    retryAfterMs: z.number(),
  }),
};

/** The schema of each message that a panel sends, as the server reads it. */
const TAKEN: { [K in keyof ClientToServer]: z.ZodType } = {
  command: sentSchema,
  watch: watchSchema,
  unwatch: idSchema,
  time: z.unknown(),
};

/** Messages that the server answers by Socket.IO's acknowledgement. */
const ANSWERED: Readonly<Record<keyof ClientToServer, string | null>> = {
  command: "accepted, duplicate or refused with its reason; or an error that no session saw",
  watch: "the whole state, or the events after `since`; then `events` follow without a gap",
  unwatch: null,
  time: "`t2` and `t3`, the server's clock (RFC 5905 section 8)",
};

const payload = (schema: z.ZodType) => {
  const { $schema: _, ...json } = z.toJSONSchema(schema, { io: "input", unrepresentable: "any" });
  return json;
};

/** Returns the description of the socket (AsyncAPI 3.0), from the schemas that the program itself uses. */
export function asyncApi(): object {
  const taken = Object.entries(TAKEN).map(([name, schema]) => {
    const answer = ANSWERED[name as keyof ClientToServer];
    return [
      name,
      { payload: payload(schema), ...(answer === null ? {} : { description: `Answered: ${answer}` }) },
    ];
  });
  const sent = Object.entries(SENT).map(([name, schema]) => [
    name,
    schema ? { payload: payload(schema) } : {},
  ]);
  const messages = Object.fromEntries([...taken, ...sent]);
  const refs = (names: string[]) => names.map((name) => ({ $ref: `#/channels/live/messages/${name}` }));
  const operation = (action: "send" | "receive", names: string[]) => ({
    action,
    channel: { $ref: "#/channels/live" },
    messages: refs(names),
  });
  return {
    asyncapi: "3.0.0",
    info: {
      title: "Chockside, the socket of the panels",
      version: VERSION,
      description:
        `Socket.IO at ${LIVE_PATH}, by WebSocket alone; protocol ${PROTOCOL}. The handshake's \`auth\` is the schema ` +
        "`Handshake`. Each event of Socket.IO is a message of that name. A program that only reads uses GET /api/live.",
    },
    channels: { live: { address: LIVE_PATH, messages } },
    operations: {
      take: operation("receive", Object.keys(TAKEN)),
      tell: operation("send", Object.keys(SENT)),
    },
    components: { schemas: { Handshake: payload(handshakeSchema) } },
  };
}
