import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { postSchema } from "../../shared/protocol/enums.ts";
import { idSchema } from "../../shared/protocol/text.ts";
import { personOf } from "../auth/identity.ts";
import { NoRehearsal } from "../rehearsals/refused.ts";
import type { Rehearsals } from "../rehearsals/rehearsals.ts";
import type { Sessions } from "../sessions/sessions.ts";
import type { EventStore } from "../store/events.ts";
import { ProblemError } from "./problem.ts";
import { listedSchema } from "./sessions.ts";
import { identityOf } from "./signed-in.ts";

/** Most rehearsals in the list. */
const LISTED = 60;

export interface RehearsalRoutesOptions {
  store: EventStore;
  sessions: Sessions;
  rehearsals: Rehearsals;
}

const begun = z.object({ id: z.string(), code: z.string() });

/** Rehearsals have routes and a list of their own, so that no list of starts can hold one. */
export const rehearsalRoutes: FastifyPluginAsyncZod<RehearsalRoutesOptions> = async (
  app,
  { store, sessions, rehearsals },
) => {
  app.get(
    "/rehearsals",
    {
      schema: {
        tags: ["rehearsals"],
        summary: `Rehearsals: those that run, then those over, each newest first; ${LISTED} at most`,
        response: { 200: z.array(listedSchema) },
      },
    },
    async (request) => {
      const offers = sessions.offersTo(identityOf(request).person.id);
      const rows = await store.rehearsals(LISTED);
      return rows
        .sort((a, b) => Number(a.closedAt !== null) - Number(b.closedAt !== null))
        .map((row) => ({ ...row, offered: offers.get(row.id) ?? [] }));
    },
  );

  app.post(
    "/rehearsals",
    {
      config: { problems: ["faultyPlan"] },
      schema: {
        tags: ["rehearsals"],
        summary: "Begin a rehearsal of an aircraft of the house: nothing of it is a start",
        body: z.strictObject({
          aircraft: idSchema,
          script: idSchema,
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

  app.delete(
    "/rehearsals/:id",
    {
      config: { problems: ["notFound", "notQualified"] },
      schema: {
        tags: ["rehearsals"],
        summary: "End a rehearsal at once",
        params: z.strictObject({ id: idSchema }),
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
