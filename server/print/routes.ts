import type { FastifyReply, FastifyRequest } from "fastify";
import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { readSealed } from "../../shared/evidence/read.ts";
import { briefOf } from "../../shared/paper/brief.ts";
import { cardOf } from "../../shared/paper/card.ts";
import { recordOf } from "../../shared/paper/record.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import { idSchema } from "../../shared/protocol/text.ts";
import { namedFor } from "../../shared/words/erased.ts";
import { SPOKEN } from "../../shared/words/spoken.ts";
import type { Clock } from "../clock.ts";
import type { Pseudonyms } from "../evidence/names.ts";
import { languageOf } from "../http/language.ts";
import { NoSuchSession, type Sessions } from "../sessions/sessions.ts";
import type { Directory } from "../store/directory.ts";
import type { EventStore, SessionRow } from "../store/events.ts";
import { printBrief } from "./brief.ts";
import { printCard } from "./card.ts";
import { printRecord } from "./record.ts";

export interface PrintRoutesOptions {
  names: Pseudonyms;
  store: EventStore;
  directory: Directory;
  sessions: Sessions;
  clock: Clock;
}

/** Events per read of the store. */
const PAGE = 500;
const params = z.strictObject({ id: idSchema });
const schema = (summary: string) => ({
  tags: ["print"],
  summary,
  response: { 200: z.any().describe("A PDF document, A4") },
});

/** Routes for the printed brief, record and card. */
export const printRoutes: FastifyPluginAsyncZod<PrintRoutesOptions> = async (app, options) => {
  const { store, directory, sessions, names, clock } = options;
  // Send the PDF's bytes unchanged: a serializer would write them anew.
  const config = { costly: true };
  const serializerCompiler = () => (bytes: unknown) => bytes as string;

  app.get(
    "/sessions/:id/brief.pdf",
    {
      config,
      schema: { ...schema("The session's brief as it stands now, to print"), params },
      serializerCompiler,
    },
    async (request, reply) => {
      const { state } = await sessions.get(request.params.id);
      const people = (await directory.people()).filter((p) => p.active);
      return pdf(
        reply,
        `brief-${state.aircraft}`,
        await printBrief(briefOf(state, people, sayFor(request)), clock.now()),
      );
    },
  );

  app.get(
    "/sessions/:id/record.pdf",
    { config, schema: { ...schema("The session's record up to now, to print"), params }, serializerCompiler },
    async (request, reply) => {
      const { id } = request.params;
      const row = await store.session(id);
      if (!row) throw new NoSuchSession(`there is no session ${id}`);
      const say = sayFor(request);
      const events = namedFor(await eventsOf(store, names, row), say);
      const record = recordOf(events, row.headHash, say);
      return pdf(reply, `record-${row.aircraft}-${row.code}`, await printRecord(record, clock.now()));
    },
  );

  app.get(
    "/card.pdf",
    {
      config,
      schema: schema("The card that takes over when the system is lost, to print before any start"),
      serializerCompiler,
    },
    async (request, reply) => {
      const standing = (await directory.types()).filter((t) => t.status === "approved");
      const versions = await Promise.all(standing.map((t) => directory.type(t.id, t.version)));
      const types = versions.flatMap((v) => (v ? [v.type] : []));
      return pdf(reply, "card", await printCard(cardOf(types, sayFor(request)), clock.now()));
    },
  );
};

/** The language that the request asks for. */
const sayFor = (request: FastifyRequest) => SPOKEN[languageOf(request)];

/** Returns the events up to the row's head, so that the last one has the row's hash. */
async function eventsOf(
  store: EventStore,
  names: Pseudonyms,
  { id, headSeq }: SessionRow,
): Promise<SessionEvent[]> {
  const events: SessionEvent[] = [];
  while (events.length < headSeq) {
    const page = await store.read(id, events.length, Math.min(PAGE, headSeq - events.length));
    if (page.length === 0) break;
    await names.loadFor(page.map((e) => e.body));
    events.push(...page.map((e) => readSealed(names.reveal(e.body)).event));
  }
  return events;
}

function pdf(reply: FastifyReply, name: string, bytes: Buffer): FastifyReply {
  return reply
    .header("content-type", "application/pdf")
    .header("content-disposition", `inline; filename="chockside-${name}.pdf"`)
    .header("cache-control", "no-store")
    .send(bytes);
}
