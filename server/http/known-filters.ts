import type { FastifyInstance } from "fastify";
import { z } from "zod";

const NONE = z.strictObject({});

/** Lets every route that is registered from now on refuse filters that it does not know: one that has none refuses all. */
export function refuseUnknownFilters(app: FastifyInstance): void {
  app.addHook("onRoute", (route) => {
    if (route.schema && route.schema.querystring === undefined && route.schema.hide !== true)
      route.schema.querystring = NONE;
  });
}
