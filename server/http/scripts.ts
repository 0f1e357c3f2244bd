import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { houseScriptSchema } from "../../shared/house/script.ts";
import { idSchema } from "../../shared/protocol/text.ts";
import { rehearsalScriptSchema } from "../../shared/rehearsal/script.ts";
import { auditTo } from "../audit.ts";
import type { HouseScripts } from "../rehearsals/house-scripts.ts";
import { SCRIPTS } from "../rehearsals/scripts.ts";
import type { Directory } from "../store/directory.ts";
import { byId, pageOf, pageSchema } from "./pages.ts";
import { namedStates, savedSchema, stateOf } from "./register-states.ts";
import { ifMatch, revisionOf, tagged } from "./revision.ts";
import { identityOf } from "./signed-in.ts";

const tags = ["rehearsals"];

export interface ScriptRoutes {
  scripts: HouseScripts;
  directory: Directory;
}

/** Routes of the scripts of rehearsals. Everybody reads them; supervisors keep those of the house. */
export const scriptRoutes: FastifyPluginAsyncZod<ScriptRoutes> = async (app, { scripts, directory }) => {
  app.get(
    "/rehearsals/scripts",
    {
      schema: {
        operationId: "listScripts",
        tags,
        summary:
          "The scripts one may begin with, whole, the program's first: each is the JSON that beginning one takes",
        querystring: pageSchema,
        response: { 200: z.array(rehearsalScriptSchema) },
      },
    },
    async (request, reply) => {
      const rank = new Map(SCRIPTS.map(({ id }, nth) => [id, nth]));
      return pageOf(reply, request.query, await scripts.usable(), {
        of: ({ id }) => [rank.get(id) ?? SCRIPTS.length, id],
      });
    },
  );

  app.get(
    "/rehearsals/house-scripts",
    {
      schema: {
        operationId: "listHouseScripts",
        tags,
        summary: "The house's own scripts as they are kept, by id, those out of use too, and who kept each",
        querystring: pageSchema,
        response: { 200: z.array(stateOf(houseScriptSchema)) },
      },
    },
    async (request, reply) => {
      const page = pageOf(reply, request.query, await scripts.all(), { of: byId });
      return namedStates(page, directory);
    },
  );

  app.post(
    "/rehearsals/house-scripts",
    {
      config: { problems: ["faultyEntry", "notQualified", "taken"] },
      schema: {
        operationId: "addHouseScript",
        tags,
        summary: "Keep a script in the house: written here, or exported elsewhere",
        body: rehearsalScriptSchema,
        response: { 201: savedSchema },
      },
    },
    async (request, reply) => {
      const { person } = identityOf(request);
      const entry = await scripts.add(person, request.body);
      auditTo(request.log).done("scriptAdded", { person: person.id, path: `rehearsals/scripts/${entry.id}` });
      return tagged(reply, entry).code(201).send(entry);
    },
  );

  app.put(
    "/rehearsals/house-scripts/:id",
    {
      config: { problems: ["faultyEntry", "notFound", "notQualified", "revisionNeeded", "stale"] },
      schema: {
        operationId: "changeHouseScript",
        tags,
        summary: "Change a script of the house as it was read (If-Match), or take it out of use",
        params: z.strictObject({ id: idSchema }),
        headers: ifMatch,
        body: houseScriptSchema.omit({ id: true }),
        response: { 200: savedSchema },
      },
    },
    async (request, reply) => {
      const { person } = identityOf(request);
      const { id } = request.params;
      const revision = revisionOf(request.headers["if-match"]);
      const entry = await scripts.change(person, { ...request.body, id }, revision);
      auditTo(request.log).done("scriptChanged", { person: person.id, path: `rehearsals/scripts/${id}` });
      return tagged(reply, entry).send(entry);
    },
  );
};
