import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import type { Sessions } from "../sessions/sessions.ts";
import type { EventStore } from "../store/events.ts";
import { ProblemError } from "./problem.ts";

export const healthRoutes: FastifyPluginAsyncZod<{ store: EventStore; sessions: Sessions }> = async (
  app,
  { store, sessions },
) => {
  const ok = z.object({ ok: z.literal(true) });

  app.get(
    "/live",
    { schema: { tags: ["health"], summary: "The process answers", response: { 200: ok } } },
    async () => ({ ok: true as const }),
  );

  app.get(
    "/ready",
    { schema: { tags: ["health"], summary: "Events can be recorded", response: { 200: ok } } },
    async () => {
      const failed = await store.probe().then(
        () => false,
        () => true,
      );
      if (failed || sessions.failing)
        throw new ProblemError("notAvailable", "Events cannot be recorded: go on by hand signals and paper");
      return { ok: true as const };
    },
  );
};
