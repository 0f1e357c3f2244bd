import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { qualified } from "../auth/refused.ts";
import type { Webhooks } from "../webhooks/webhooks.ts";
import { identityOf } from "./signed-in.ts";

const letter = z.object({
  at: z.string(),
  target: z.string(),
  id: z.string(),
  kind: z.string(),
  why: z.string(),
});

/** Route by which supervisors see whether webhooks arrive. They are set by the operator alone. */
export const webhookRoute: FastifyPluginAsyncZod<{ webhooks: Webhooks | null }> = async (
  app,
  { webhooks },
) => {
  app.get(
    "/webhooks",
    {
      config: { problems: ["notQualified"] },
      schema: {
        tags: ["webhooks"],
        summary: "The webhooks of the operator, what waits, and the last 100 messages that were given up",
        response: {
          200: z.object({
            targets: z.array(
              z.object({
                name: z.string(),
                host: z.string(),
                kinds: z.array(z.string()),
                waits: z.string().nullable().describe("Why the newest message waits; null when none does"),
              }),
            ),
            givenUp: z.array(letter),
          }),
        },
      },
    },
    async (request) => {
      qualified(identityOf(request).person);
      return { targets: webhooks?.states() ?? [], givenUp: (await webhooks?.deadLetters()) ?? [] };
    },
  );
};
