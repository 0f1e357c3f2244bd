import type { FastifyRequest } from "fastify";
import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { engineSchema } from "../../shared/protocol/commands.ts";
import { postSchema } from "../../shared/protocol/enums.ts";
import { FAULTS } from "../../shared/protocol/rehearsalFaults.ts";
import { controlsSchema } from "../../shared/protocol/rehearsedFact.ts";
import { idSchema, line } from "../../shared/protocol/text.ts";
import { rehearsalScriptSchema } from "../../shared/rehearsal/script.ts";
import { personOf } from "../auth/identity.ts";
import { NoRehearsal } from "../rehearsals/refused.ts";
import type { Rehearsals } from "../rehearsals/rehearsals.ts";
import type { RunningRehearsal } from "../rehearsals/running.ts";
import { worldFor } from "../rehearsals/world.ts";
import type { Sessions } from "../sessions/sessions.ts";
import type { EventStore, SessionRow } from "../store/events.ts";
import { PAGE_ROWS } from "./pages.ts";
import { ProblemError } from "./problem.ts";
import { NEWEST_FIRST, newestPage, newestSchema } from "./session-pages.ts";
import { listedSchema } from "./sessions.ts";
import { identityOf } from "./signed-in.ts";

/** Most rehearsals in the list without filters. */
const LISTED = 60;

export interface RehearsalRoutesOptions {
  store: EventStore;
  sessions: Sessions;
  rehearsals: Rehearsals;
}

const begun = z.object({ id: z.string(), code: z.string() });
const idParams = z.strictObject({ id: idSchema });
/** Rehearsals have routes and a list of their own, so that no list of starts can hold one. */
export const rehearsalRoutes: FastifyPluginAsyncZod<RehearsalRoutesOptions> = async (
  app,
  { store, sessions, rehearsals },
) => {
  /** Returns the rehearsal that a panel asks about, unless a fault has cut the panel off. */
  const reached = (request: FastifyRequest<{ Params: { id: string } }>): RunningRehearsal => {
    const { id } = request.params;
    if (rehearsals.isCutOff(id, personOf(identityOf(request))))
      throw new ProblemError("notAvailable", "This panel is cut off from the rehearsal for a while");
    return rehearsals.running(id);
  };

  app.get(
    "/rehearsals",
    {
      schema: {
        operationId: "listRehearsals",
        tags: ["rehearsals"],
        summary: `Rehearsals: those that run, then those over, each newest first; ${LISTED} at most`,
        description: NEWEST_FIRST,
        querystring: newestSchema,
        response: { 200: z.array(listedSchema).max(PAGE_ROWS) },
      },
    },
    async (request, reply) => {
      const offers = sessions.offersTo(identityOf(request).person.id);
      const shown = (row: SessionRow) => ({ ...row, offered: offers.get(row.id) ?? [] });
      const page = await newestPage(reply, request.query, (most, before) => store.rehearsals(most, before));
      if (page) return page.map(shown);
      const rows = await store.rehearsals(LISTED);
      return rows.sort((a, b) => Number(a.closedAt !== null) - Number(b.closedAt !== null)).map(shown);
    },
  );

  app.post(
    "/rehearsals",
    {
      config: { problems: ["faultyPlan"] },
      schema: {
        operationId: "beginRehearsal",
        tags: ["rehearsals"],
        summary: "Begin a rehearsal of an aircraft of the house: nothing of it is a start",
        body: z.strictObject({
          aircraft: idSchema,
          script: z
            .union([idSchema, rehearsalScriptSchema])
            .describe("The id of a script, or one of your own"),
          seed: z.number().int().min(0).max(0xffff_ffff).optional(),
          post: postSchema.nullable().describe("The post that who asks takes; null to watch"),
        }),
        response: { 201: begun },
      },
    },
    async (request, reply) => {
      const person = personOf(identityOf(request));
      return reply.code(201).send(await said(() => rehearsals.begin(person, request.body)));
    },
  );

  app.get(
    "/rehearsals/:id/world",
    {
      config: { problems: ["notAvailable", "notFound"] },
      schema: {
        operationId: "readRehearsedWorld",
        tags: ["rehearsals"],
        summary: "What the person who asks sees of the simulated aircraft from their post",
        params: idParams,
        response: { 200: z.record(z.string(), z.unknown()).describe("SeenWorld") },
      },
    },
    async (request) =>
      said(async () => {
        const rehearsal = reached(request);
        const { state } = await sessions.get(rehearsal.id);
        return { ...worldFor(rehearsal, state, personOf(identityOf(request))) };
      }),
  );

  app.put(
    "/rehearsals/:id/hands",
    {
      config: { problems: ["notAvailable", "notFound", "notQualified"] },
      schema: {
        operationId: "setRehearsedControls",
        tags: ["rehearsals"],
        summary: "Set the controls of the simulated cockpit, by who holds it; null leaves them to good hands",
        params: idParams,
        body: z.strictObject({ controls: controlsSchema.nullable() }),
        response: { 204: z.null() },
      },
    },
    async (request, reply) => {
      await said(async () => {
        const rehearsal = reached(request);
        const { state } = await sessions.get(rehearsal.id);
        const { id } = personOf(identityOf(request));
        if (state.posts.cockpit?.id !== id)
          throw new NoRehearsal("notQualified", "Take the cockpit of this rehearsal first");
        await rehearsal.work(request.body.controls);
      });
      return reply.code(204).send(null);
    },
  );

  app.post(
    "/rehearsals/:id/desk",
    {
      config: { problems: ["notFound", "notQualified"] },
      schema: {
        operationId: "instructRehearsal",
        tags: ["rehearsals"],
        summary:
          "Freeze it, set its speed, throw a fault, write a mark, or say a word to a post: by who began it, or a supervisor",
        params: idParams,
        body: z.discriminatedUnion("do", [
          z.strictObject({ do: z.literal("pace"), frozen: z.boolean(), speed: z.number().min(1).max(4) }),
          z.strictObject({
            do: z.literal("throw"),
            fault: z.enum(FAULTS),
            engine: engineSchema,
            post: postSchema.optional(),
          }),
          z.strictObject({ do: z.literal("mark"), words: line(140) }),
          z.strictObject({ do: z.literal("say"), post: postSchema, words: line(140) }),
        ]),
        response: { 204: z.null() },
      },
    },
    async (request, reply) => {
      await said(() => rehearsals.atDesk(request.params.id, personOf(identityOf(request)), request.body));
      return reply.code(204).send(null);
    },
  );

  app.post(
    "/rehearsals/:id/back",
    {
      config: { problems: ["faultyPlan", "notFound", "notQualified"] },
      schema: {
        operationId: "takeRehearsalBack",
        tags: ["rehearsals"],
        summary: "End it and begin another one at a moment of it: by who began it, or a supervisor",
        params: idParams,
        body: z.strictObject({
          seq: z.number().int().min(1).describe("The event of its record after which the new one goes on"),
        }),
        response: { 201: begun },
      },
    },
    async (request, reply) => {
      const person = personOf(identityOf(request));
      const { id } = request.params;
      return reply.code(201).send(await said(() => rehearsals.back(id, person, request.body.seq)));
    },
  );

  app.delete(
    "/rehearsals/:id",
    {
      config: { problems: ["notFound", "notQualified"] },
      schema: {
        operationId: "endRehearsal",
        tags: ["rehearsals"],
        summary: "End a rehearsal at once",
        params: idParams,
        response: { 204: z.null() },
      },
    },
    async (request, reply) => {
      await said(() => rehearsals.end(request.params.id, personOf(identityOf(request))));
      return reply.code(204).send(null);
    },
  );
};

/** Runs `work`, and answers a refusal as a problem. */
async function said<T>(work: () => Promise<T>): Promise<T> {
  try {
    return await work();
  } catch (error) {
    if (error instanceof NoRehearsal) throw new ProblemError(error.problem, error.message);
    throw error;
  }
}
