import { Readable } from "node:stream";
import type { FastifyRequest } from "fastify";
import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { idSchema } from "../../shared/protocol/text.ts";
import { LiveReader, type LiveReaderDeps, type Reach } from "../live/live-reader.ts";
import type { Asker, Readers } from "../live/readers.ts";
import { type Position, positionIn } from "../live/stream-position.ts";
import { NoSuchSession } from "../sessions/errors.ts";
import { text } from "./download.ts";
import { ProblemError } from "./problem.ts";
import { identityOf } from "./signed-in.ts";

const querystring = z
  .strictObject({ session: idSchema.optional(), aircraft: idSchema.optional() })
  .refine(({ session, aircraft }) => session === undefined || aircraft === undefined, {
    message: "name a session or an aircraft, or neither for the whole ramp",
  });

const description =
  "A stream of server-sent events. `hello` comes first. Without `Last-Event-ID`, `state` follows with the state of " +
  "each session that is open, as GET /api/sessions/{id} gives it; then `event` for each event as it is recorded, in " +
  "the order of its session, as GET /api/sessions/{id}/events gives them. Every message is JSON with `v`, the version " +
  "of its form. Send the last `id` that you received as `Last-Event-ID`: nothing is lost and nothing comes twice. " +
  "A comment is sent every 10 seconds.";

export interface LiveRoute extends LiveReaderDeps {
  readers: Readers;
}

/** Route by which other systems follow what is recorded. */
export const liveRoute: FastifyPluginAsyncZod<LiveRoute> = async (app, { readers, ...deps }) => {
  app.get(
    "/live",
    {
      // A HEAD request would open a stream that nobody reads.
      exposeHeadRoute: false,
      config: { scopes: ["readLive"], problems: ["notFound"] },
      schema: {
        operationId: "followLive",
        tags: ["live"],
        summary: "What is recorded of one session, one aircraft or the whole ramp, as it is recorded",
        description,
        querystring,
        headers: z.object({
          "last-event-id": z.string().optional().describe("The id of the last message received"),
        }),
        produces: ["text/event-stream"],
        response: { 200: text("Server-sent events") },
      },
      serializerCompiler: () => String,
    },
    async (request, reply) => {
      const reach = reachOf(request.query);
      const from = positionOf(request.headers["last-event-id"], reach);
      const asker = askerOf(request);
      if (!readers.mayOpen(asker, request.ip))
        throw new ProblemError("tooMany", "Too many streams are open: end one first", {
          retryAfterMs: 5_000,
        });
      if (reach.is === "session" && !(await deps.store.session(reach.id)))
        throw new NoSuchSession(`there is no session ${reach.id}`);
      const reader = await LiveReader.open(deps, reach, from);
      const gone = readers.keep(reader, asker, request.ip);
      const stream = Readable.from(reader.read(), { highWaterMark: 1 });
      // The reader may be waiting for news when the other end leaves.
      reply.raw.once("close", gone);
      stream.once("close", gone);
      return reply
        .header("content-type", "text/event-stream; charset=utf-8")
        .header("cache-control", "no-store")
        .header("x-accel-buffering", "no")
        .send(stream);
    },
  );
};

function reachOf({ session, aircraft }: z.infer<typeof querystring>): Reach {
  if (session !== undefined) return { is: "session", id: session };
  return aircraft === undefined ? { is: "ramp" } : { is: "aircraft", id: aircraft };
}

/** @throws ProblemError for an id that no message of this stream has had */
function positionOf(id: string | undefined, reach: Reach): Position | null {
  if (id === undefined || id === "") return null;
  const position = positionIn(id);
  const fits = reach.is !== "session" || (position?.sessions.size === 1 && position.sessions.has(reach.id));
  if (!position || !fits)
    throw new ProblemError("malformed", "Last-Event-ID: send the id of a message of this stream, or none");
  return position;
}

function askerOf(request: FastifyRequest): Asker {
  if (request.account) return { is: "account", id: request.account.id };
  const { person, signIn } = identityOf(request);
  return { is: "person", id: person.id, signIn };
}
