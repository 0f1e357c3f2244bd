import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import type { EventStore } from "../store/events.ts";
import { ProblemError } from "./problem.ts";

/** Returns true when events can be recorded now. The probe writes to the disk the way an event does. */
export function isReady(store: EventStore): Promise<boolean> {
  return store.probe().then(
    () => true,
    () => false,
  );
}

export const healthRoutes: FastifyPluginAsyncZod<{ store: EventStore }> = async (app, { store }) => {
  const config = { unlimited: true };
  const ok = z.object({ ok: z.literal(true) });

  app.get(
    "/live",
    { config, schema: { tags: ["health"], summary: "The process answers", response: { 200: ok } } },
    async () => ({ ok: true as const }),
  );

  app.get(
    "/ready",
    { config, schema: { tags: ["health"], summary: "Events can be recorded", response: { 200: ok } } },
    async () => {
      if (!(await isReady(store)))
        throw new ProblemError("notAvailable", "Events cannot be recorded: go on by hand signals and paper");
      return { ok: true as const };
    },
  );
};
