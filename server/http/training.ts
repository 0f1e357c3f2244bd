import type { FastifyReply } from "fastify";
import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { postSchema } from "../../shared/protocol/enums.ts";
import { idSchema } from "../../shared/protocol/text.ts";
import { OfficeRefused, qualified } from "../auth/refused.ts";
import { LOOKED_AT, mayRead, type Trainings } from "../rehearsals/trainings.ts";
import type { Directory } from "../store/directory.ts";
import { named } from "./named.ts";
import { pageOf, pageSchema } from "./pages.ts";
import { identityOf } from "./signed-in.ts";

const tags = ["rehearsals"];
const training = named(
  "Training",
  z.object({
    lines: z.array(
      z.object({
        session: z.string().describe("The rehearsal: its debrief stands on its record"),
        script: z.string().describe("The script's id"),
        title: z
          .object({ en: z.string(), es: z.string() })
          .nullable()
          .describe("Its title as it was played; null: the record does not hold it"),
        takenBack: z.boolean().describe("It began at a moment of another rehearsal"),
        aircraft: z.string().describe("The registration that was rehearsed"),
        typeName: z.string(),
        post: postSchema,
        at: z.number().describe("When the post was taken first"),
        seconds: z.number().describe("How long it was held"),
        finishedAt: z.number().nullable(),
        watchedBy: z.array(z.string().nullable()).describe("Who stood at the desk; null: erased"),
      }),
    ),
    more: z.boolean().describe(`True when there are older rehearsals: the newest ${LOOKED_AT} are looked at`),
  }),
);

const measures = named(
  "RehearsalMeasures",
  z.object({
    answered: z.record(z.string(), z.number().nullable()).describe("Seconds, by fault; null: not answered"),
    unnecessary: z.number(),
    wrongNumbers: z.number(),
    refused: z.number(),
    stepsMissed: z.number(),
    limits: z.number(),
    alerts: z.number(),
    starterK: z.number(),
    withoutOilS: z.number(),
    touches: z.record(z.string(), z.number()).describe("By post"),
  }),
);
const comparison = named(
  "Comparison",
  z.object({
    takenBack: z.boolean().describe("It began at a moment of another rehearsal: it is compared with none"),
    people: z.array(
      z.object({
        name: z.string(),
        post: postSchema,
        now: measures,
        before: z.array(z.object({ session: z.string(), at: z.number(), measures })),
      }),
    ),
  }),
);

/** Routes of what people rehearsed: training, and no start. */
export const trainingRoutes: FastifyPluginAsyncZod<{ trainings: Trainings; directory: Directory }> = async (
  app,
  { trainings, directory },
) => {
  app.get(
    "/me/training",
    {
      config: { costly: true },
      schema: {
        operationId: "listMyTraining",
        tags,
        summary: "What one rehearsed oneself, newest first",
        querystring: pageSchema,
        response: { 200: training },
      },
    },
    async (request, reply) => page(reply, request.query, identityOf(request).person.id),
  );

  app.get(
    "/rehearsals/:id/compared",
    {
      config: { costly: true, problems: ["notFound"] },
      schema: {
        operationId: "compareRehearsal",
        tags,
        summary:
          "A rehearsal that is over beside the last runs of its people: one's own, and to a supervisor everybody's",
        params: z.strictObject({ id: idSchema }),
        response: { 200: comparison },
      },
    },
    async (request) => {
      const { person } = identityOf(request);
      const found = await trainings.compared(request.params.id, mayRead(person));
      if (!found) throw new OfficeRefused("notFound", "No rehearsal that is over has this id");
      return found;
    },
  );

  app.get(
    "/people/:id/training",
    {
      config: { costly: true, problems: ["notFound", "notQualified"] },
      schema: {
        operationId: "listTraining",
        tags,
        summary: "What a person rehearsed, newest first: one's own, and to a supervisor anybody's",
        params: z.strictObject({ id: idSchema }),
        querystring: pageSchema,
        response: { 200: training },
      },
    },
    async (request, reply) => {
      const { person } = identityOf(request);
      const { id } = request.params;
      if (id !== person.id) qualified(person);
      if (!(await directory.person(id))) throw new OfficeRefused("notFound", "There is no such person");
      return page(reply, request.query, id);
    },
  );

  async function page(reply: FastifyReply, query: z.output<typeof pageSchema>, person: string) {
    const { lines, more } = await trainings.of(person);
    return {
      lines: pageOf(reply, query, lines, {
        of: ({ at, session, post }) => [at, `${session} ${post}`],
        newestFirst: true,
      }),
      more,
    };
  }
};
