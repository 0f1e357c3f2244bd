import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import type { Recordable } from "../store/recordable.ts";
import { ProblemError } from "./problem.ts";

export const healthRoutes: FastifyPluginAsyncZod<{ recordable: Recordable }> = async (
  app,
  { recordable },
) => {
  const config = { unlimited: true };
  const ok = z.object({ ok: z.literal(true) });

  app.get(
    "/live",
    {
      config,
      schema: {
        operationId: "isLive",
        tags: ["health"],
        summary: "The process answers",
        response: { 200: ok },
      },
    },
    async () => ({ ok: true as const }),
  );

  app.get(
    "/ready",
    {
      config,
      schema: {
        operationId: "isReady",
        tags: ["health"],
        summary: "Events can be recorded",
        response: { 200: ok },
      },
    },
    async () => {
      if (!(await recordable.check()))
        throw new ProblemError("notAvailable", "Events cannot be recorded: go on by hand signals and paper");
      return { ok: true as const };
    },
  );
};
