import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { POSTS } from "../../shared/protocol/posts.ts";
import type { Directory } from "../store/directory.ts";

/** Lists the people and aircraft that a session can be planned with. */
export const directoryRoutes: FastifyPluginAsyncZod<{ directory: Directory }> = async (
  app,
  { directory },
) => {
  app.get(
    "/people",
    {
      schema: {
        tags: ["directory"],
        summary: "People who may hold posts",
        response: {
          200: z.array(z.object({ id: z.string(), name: z.string(), mayHold: z.array(z.enum(POSTS)) })),
        },
      },
    },
    async () => (await directory.people()).filter((p) => p.active),
  );

  app.get(
    "/aircraft",
    {
      schema: {
        tags: ["directory"],
        summary: "Aircraft that can be planned, each with the newest approved version of its type",
        response: {
          200: z.array(
            z.object({
              id: z.string(),
              name: z.string(),
              typeId: z.string(),
              typeVersion: z.number(),
              typeName: z.string(),
            }),
          ),
        },
      },
    },
    async () => {
      const approved = (await directory.types()).filter((t) => t.status === "approved");
      const newest = new Map(approved.map((t) => [t.id, t]));
      return (await directory.aircraft()).flatMap((a) => {
        const type = newest.get(a.typeId);
        return type ? [{ ...a, typeVersion: type.version, typeName: type.name }] : [];
      });
    },
  );
};
