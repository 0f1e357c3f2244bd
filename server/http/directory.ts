import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { POSTS } from "../../shared/protocol/posts.ts";
import type { Directory } from "../store/directory.ts";
import { byId, pageOf, pageSchema } from "./pages.ts";

/** Lists the people that a session can be planned with. */
export const directoryRoutes: FastifyPluginAsyncZod<{ directory: Directory }> = async (
  app,
  { directory },
) => {
  app.get(
    "/people",
    {
      schema: {
        operationId: "listPeople",
        tags: ["directory"],
        summary: "People who may hold posts, by id",
        querystring: pageSchema,
        response: {
          200: z.array(z.object({ id: z.string(), name: z.string(), mayHold: z.array(z.enum(POSTS)) })),
        },
      },
    },
    async (request, reply) => {
      const active = (await directory.people()).filter((p) => p.active);
      return pageOf(reply, request.query, active, { of: byId });
    },
  );
};
