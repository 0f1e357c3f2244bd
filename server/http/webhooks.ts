import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { auditTo } from "../audit.ts";
import { qualified } from "../auth/refused.ts";
import { MOST_TARGETS } from "../webhooks/targets.ts";
import type { Webhooks } from "../webhooks/webhooks.ts";
import { named } from "./named.ts";
import { pageOf, pageSchema } from "./pages.ts";
import { ProblemError } from "./problem.ts";
import { identityOf } from "./signed-in.ts";

const state = named(
  "Webhook",
  z.object({
    name: z.string(),
    host: z.string(),
    kinds: z.array(z.string()),
    here: z.boolean().describe("True when this server sends it: of several servers one does"),
    waits: z
      .string()
      .nullable()
      .describe("Why the newest message waits; null when none does, or another server sends it"),
  }),
);

const letter = named(
  "GivenUpMessage",
  z.object({
    at: z.string(),
    target: z.string(),
    id: z.string(),
    kind: z.string(),
    why: z.string(),
  }),
);

/** Routes by which supervisors see whether webhooks arrive. They are set by the operator alone. */
export const webhookRoutes: FastifyPluginAsyncZod<{ webhooks: Webhooks | null }> = async (
  app,
  { webhooks },
) => {
  app.get(
    "/webhooks",
    {
      config: { problems: ["notQualified"] },
      schema: {
        operationId: "listWebhooks",
        tags: ["webhooks"],
        summary: "The webhooks of the operator, and what waits",
        response: { 200: z.array(state).max(MOST_TARGETS) },
      },
    },
    async (request) => {
      qualified(identityOf(request).person);
      return webhooks?.states() ?? [];
    },
  );

  app.get(
    "/webhooks/given-up",
    {
      config: { problems: ["notQualified"] },
      schema: {
        operationId: "listGivenUpMessages",
        tags: ["webhooks"],
        summary: "Messages of webhooks that were given up, the newest first",
        querystring: pageSchema,
        response: { 200: z.array(letter) },
      },
    },
    async (request, reply) => {
      qualified(identityOf(request).person);
      return pageOf(reply, request.query, (await webhooks?.deadLetters()) ?? [], {
        of: ({ at, target, id }) => [Date.parse(at), `${target} ${id}`],
        newestFirst: true,
      });
    },
  );

  app.post(
    "/webhooks/again",
    {
      config: { costly: true, problems: ["notFound", "notQualified"] },
      schema: {
        operationId: "sendMessageAgain",
        tags: ["webhooks"],
        summary: "Send a message that was given up once more; one that is taken is no longer listed",
        body: z.strictObject({ target: z.string().max(40), id: z.string().max(200) }),
        response: {
          200: z.object({ why: z.string().nullable().describe("Why it was not taken; null when it was") }),
        },
      },
    },
    async (request) => {
      const { person } = identityOf(request);
      qualified(person);
      const why = await webhooks?.again(request.body);
      if (why === undefined) throw new ProblemError("notFound", "No such message was given up");
      auditTo(request.log).done("webhookAgain", {
        person: person.id,
        path: `webhooks/${request.body.target}`,
      });
      return { why };
    },
  );
};
