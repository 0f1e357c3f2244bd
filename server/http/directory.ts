import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { POSTS } from "../../shared/protocol/posts.ts";
import { idSchema } from "../../shared/protocol/text.ts";
import { aircraftTypeSchema } from "../../shared/types/schema.ts";
import type { Directory } from "../store/directory.ts";
import { ProblemError } from "./problem.ts";

const typeView = z.object({ id: z.string(), version: z.number(), name: z.string(), status: z.string() });

/** People, aircraft and types, to plan from. */
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
        summary: "Aircraft, each with the newest version of its type",
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
      // In order of version, so the last of an id is the newest.
      const newest = new Map((await directory.types()).map((t) => [t.id, t]));
      return (await directory.aircraft()).flatMap((a) => {
        const type = newest.get(a.typeId);
        return type ? [{ ...a, typeVersion: type.version, typeName: type.name }] : [];
      });
    },
  );

  app.get(
    "/types",
    { schema: { tags: ["directory"], summary: "Aircraft types", response: { 200: z.array(typeView) } } },
    () => directory.types(),
  );

  app.get(
    "/types/:id/:version",
    {
      schema: {
        tags: ["directory"],
        summary: "One version of an aircraft type, with the source of every figure",
        params: z.strictObject({ id: idSchema, version: z.coerce.number().int().min(1) }),
        response: { 200: aircraftTypeSchema },
      },
    },
    async (request) => {
      const { id, version } = request.params;
      const type = await directory.type(id, version);
      if (!type) throw new ProblemError("notFound", `There is no version ${version} of a type ${id}`);
      return type;
    },
  );
};
