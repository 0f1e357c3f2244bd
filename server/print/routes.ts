import type { FastifyReply, FastifyRequest } from "fastify";
import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { briefOf } from "../../shared/paper/brief.ts";
import { cardOf } from "../../shared/paper/card.ts";
import { isRehearsalId } from "../../shared/protocol/rehearsal.ts";
import { idSchema } from "../../shared/protocol/text.ts";
import { SPOKEN } from "../../shared/words/spoken.ts";
import type { Clock } from "../clock.ts";
import type { Pseudonyms } from "../evidence/names.ts";
import type { EngineHistories } from "../history/engines.ts";
import { asPlanner } from "../house/currencies.ts";
import type { Dues } from "../house/dues.ts";
import { download } from "../http/download.ts";
import { languageOf } from "../http/language.ts";
import { askerOf, identityOf } from "../http/signed-in.ts";
import { mayRead, type Trainings } from "../rehearsals/trainings.ts";
import { NoSuchSession } from "../sessions/errors.ts";
import type { Sessions } from "../sessions/sessions.ts";
import { sha256 } from "../sha256.ts";
import type { Directory } from "../store/directory.ts";
import type { EventStore, SessionRow } from "../store/events.ts";
import type { Press, SheetOrder } from "./press.ts";
import type { JobHead } from "./sheet-job.ts";

export interface PrintRoutesOptions {
  names: Pseudonyms;
  store: EventStore;
  directory: Directory;
  sessions: Sessions;
  clock: Clock;
  press: Press;
  dues: Dues;
  histories: EngineHistories;
  trainings: Trainings;
}

/** Events per read of the store. */
const PAGE = 500;
const params = z.strictObject({ id: idSchema });
const schema = (operationId: string, summary: string) => ({
  operationId,
  tags: ["print"],
  summary,
  produces: ["application/pdf"],
  response: { 200: download("A PDF document, A4") },
});

/** Routes for the printed brief, record and card. */
export const printRoutes: FastifyPluginAsyncZod<PrintRoutesOptions> = async (app, options) => {
  const { store, directory, sessions, names, clock, press, dues, histories, trainings } = options;
  const print = async (request: FastifyRequest, reply: FastifyReply, name: string, order: SheetOrder) =>
    pdf(reply, name, await press.print(askerOf(request), order));
  // A brief without notes is better than none.
  const notesFor = (aircraft: string) => histories.notesFor(aircraft).catch(() => []);
  // Send the PDF's bytes unchanged: a serializer would write them anew.
  const config = { costly: true };
  const ofSession = { ...config, problems: ["notFound"] as const };
  const serializerCompiler = () => (bytes: unknown) => bytes as string;

  app.get(
    "/sessions/:id/brief.pdf",
    {
      config: ofSession,
      schema: { ...schema("printBrief", "The session's brief as it stands now, to print"), params },
      serializerCompiler,
    },
    async (request, reply) => {
      const { state } = await sessions.get(request.params.id);
      const people = (await directory.people()).filter((p) => p.active);
      const brief = briefOf(state, people, sayFor(request), await notesFor(state.aircraft));
      return print(
        request,
        reply,
        `brief-${state.aircraft}`,
        whole({ sheet: "brief", now: clock.now(), brief }),
      );
    },
  );

  app.get(
    "/sessions/:id/record.pdf",
    {
      config: { ...ofSession, scopes: ["readRecords"] },
      schema: {
        ...schema(
          "printRecord",
          "The session's record up to now, to print: in the short form, or with its full log",
        ),
        params,
        querystring: z.strictObject({ form: z.enum(["short", "full"]).default("short") }),
      },
      serializerCompiler,
    },
    async (request, reply) => {
      const { id } = request.params;
      const { form } = request.query;
      const row = await store.session(id);
      if (!row) throw new NoSuchSession(`there is no session ${id}`);
      const language = languageOf(request);
      // A service account reads nobody's training.
      const may = request.identity ? mayRead(request.identity.person) : () => false;
      const compared = isRehearsalId(id) ? await trainings.compared(id, may) : null;
      const { headHash } = row;
      const head: JobHead = { sheet: "record", now: clock.now(), headHash, language, form, compared };
      return print(request, reply, `record-${row.aircraft}-${row.code}`, {
        // Two people may read different earlier runs.
        key: `record ${id} ${headHash} ${language} ${form} ${sha256(JSON.stringify(compared))}`,
        events: row.headSeq,
        whole: form === "full",
        lines: () => recordLines(store, names, row, head),
      });
    },
  );

  app.get(
    "/card.pdf",
    {
      config,
      schema: schema(
        "printCard",
        "The card that takes over when the system is lost, to print before any start",
      ),
      serializerCompiler,
    },
    async (request, reply) => {
      const standing = (await directory.types()).filter((t) => t.status === "approved");
      const versions = await Promise.all(standing.map((t) => directory.type(t.id, t.version)));
      const types = versions.flatMap((v) => (v ? [v.type] : []));
      const card = cardOf(types, sayFor(request));
      return print(request, reply, "card", whole({ sheet: "card", now: clock.now(), card }));
    },
  );

  app.get(
    "/dues.pdf",
    {
      config: { ...config, problems: ["notQualified"] as const },
      schema: schema("printDues", "What is over and what is due, to print; for those who plan"),
      serializerCompiler,
    },
    async (request, reply) => {
      asPlanner(identityOf(request).person);
      const head = { sheet: "dues" as const, dues: await dues.list(), language: languageOf(request) };
      return print(request, reply, "dues", whole({ ...head, now: clock.now() }));
    },
  );
};

/** The language that the request asks for. */
const sayFor = (request: FastifyRequest) => SPOKEN[languageOf(request)];

/** Returns the order for a sheet that needs no events. Two that differ in the time of printing alone are one. */
function whole(head: JobHead): SheetOrder {
  const line = JSON.stringify(head);
  const key = sha256(JSON.stringify({ ...head, now: null }));
  return {
    key,
    events: 0,
    whole: false,
    async *lines() {
      yield line;
    },
  };
}

/** Reads the events up to the row's head, so that the last one has the row's hash. */
async function* recordLines(
  store: EventStore,
  names: Pseudonyms,
  { id, headSeq }: SessionRow,
  head: JobHead,
): AsyncIterable<string> {
  yield JSON.stringify(head);
  for (let read = 0; read < headSeq; ) {
    const page = await store.read(id, read, Math.min(PAGE, headSeq - read));
    if (page.length === 0) return;
    await names.loadFor(page.map((e) => e.body));
    for (const { body } of page) yield names.reveal(body);
    read += page.length;
  }
}

function pdf(reply: FastifyReply, name: string, bytes: Buffer): FastifyReply {
  return reply
    .header("content-type", "application/pdf")
    .header("content-disposition", `inline; filename="chockside-${name}.pdf"`)
    .header("cache-control", "no-store")
    .send(bytes);
}
