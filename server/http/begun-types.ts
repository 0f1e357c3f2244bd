import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import type { RegisterEntry } from "../../shared/house/register.ts";
import { idSchema, line } from "../../shared/protocol/text.ts";
import { nameById } from "../house/names.ts";
import type { Directory } from "../store/directory.ts";
import type { BegunTypes } from "../types/begun.ts";
import { named } from "./named.ts";
import { byId, pageOf, pageSchema } from "./pages.ts";
import { savedSchema } from "./register-states.ts";
import { ifMatch, revisionOf, tagged } from "./revision.ts";
import { identityOf } from "./signed-in.ts";
import { TYPE_BYTES } from "./types.ts";

const tags = ["types"];
const params = z.strictObject({ id: idSchema });
const entered = z.record(z.string(), z.unknown()).describe("Parts of a type, with gaps and faults");
const listed = named(
  "BegunType",
  z.object({ id: z.string(), name: z.string(), at: z.number(), by: z.string() }),
);
const config = { costly: true };

interface BegunTypeRoutes {
  begun: BegunTypes;
  directory: Directory;
}

/** Routes of types that are begun and not finished. Everybody may read them; supervisors enter them. */
export const begunTypeRoutes: FastifyPluginAsyncZod<BegunTypeRoutes> = async (app, { begun, directory }) => {
  app.get(
    "/begun-types",
    {
      schema: {
        operationId: "listBegunTypes",
        tags,
        summary: "Every type that is begun and not finished, by id, with who changed it last",
        querystring: pageSchema,
        response: { 200: z.array(listed) },
      },
    },
    async (request, reply) => {
      const named = await nameById(directory);
      return pageOf(reply, request.query, await begun.list(), { of: byId }).map((e) => view(e, named(e.by)));
    },
  );

  app.get(
    "/begun-types/:id",
    {
      config: { problems: ["notFound"] },
      schema: {
        operationId: "readBegunType",
        tags,
        summary: "What was entered of one; its revision is the entity tag",
        params,
        response: { 200: z.object({ ...listed.shape, entered }) },
      },
    },
    async (request, reply) => {
      const one = await begun.one(request.params.id);
      const named = await nameById(directory);
      return tagged(reply, one).send({ ...view(one, named(one.by)), entered: one.body.entered });
    },
  );

  app.post(
    "/begun-types",
    {
      config: { problems: ["notQualified", "taken"] },
      schema: {
        operationId: "beginType",
        tags,
        summary: "Begin a type from nothing: every figure is blank",
        body: z.strictObject({ id: idSchema, name: line(60), engines: z.number().int().min(1).max(8) }),
        response: { 201: savedSchema },
      },
    },
    async (request, reply) => {
      const entry = await begun.begin(identityOf(request).person, request.body);
      return tagged(reply, entry).code(201).send(entry);
    },
  );

  app.put(
    "/begun-types/:id",
    {
      bodyLimit: TYPE_BYTES,
      config: { ...config, problems: ["faultyType", "notFound", "notQualified", "revisionNeeded", "stale"] },
      schema: {
        operationId: "changeBegunType",
        tags,
        summary: "Replace what was entered, as it was read (If-Match); gaps and faults are kept too",
        params,
        headers: ifMatch,
        body: entered,
        response: { 200: savedSchema },
      },
    },
    async (request, reply) => {
      const revision = revisionOf(request.headers["if-match"]);
      const { person } = identityOf(request);
      const entry = await begun.change(person, request.params.id, revision, request.body);
      return tagged(reply, entry).send(entry);
    },
  );

  app.delete(
    "/begun-types/:id",
    {
      config: { problems: ["notFound", "notQualified", "revisionNeeded", "stale"] },
      schema: {
        operationId: "giveUpBegunType",
        tags,
        summary: "Give it up, as it was read (If-Match)",
        params,
        headers: ifMatch,
        response: { 204: z.null() },
      },
    },
    async (request, reply) => {
      const revision = revisionOf(request.headers["if-match"]);
      await begun.giveUp(identityOf(request).person, request.params.id, revision);
      return reply.code(204).send(null);
    },
  );

  app.post(
    "/begun-types/:id/draft",
    {
      config: { ...config, problems: ["faultyType", "notFound", "notQualified"] },
      schema: {
        operationId: "draftBegunType",
        tags,
        summary:
          "Make it the first draft of its type, as it was read (If-Match); refused with every fault named",
        params,
        headers: ifMatch,
        response: { 201: z.object({ id: z.string(), version: z.number() }) },
      },
    },
    async (request, reply) => {
      const revision = revisionOf(request.headers["if-match"]);
      const made = await begun.finish(identityOf(request).person, request.params.id, revision);
      return reply.code(201).send({ id: made.id, version: made.version });
    },
  );
};

function view({ id, at, body }: RegisterEntry<"begunType">, by: string) {
  return { id, name: body.name, at, by };
}
