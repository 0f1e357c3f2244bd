import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { type HouseEquipment, houseEquipmentSchema } from "../../shared/house/equipment.ts";
import { labelSchema } from "../../shared/protocol/equipment.ts";
import { DUE_DATES, OUT_CAUSES } from "../../shared/protocol/equipmentKinds.ts";
import { line } from "../../shared/protocol/text.ts";
import { auditTo } from "../audit.ts";
import { CHANGES } from "../house/entries.ts";
import type { EquipmentRegister, ListedEquipment } from "../house/equipment.ts";
import type { Directory } from "../store/directory.ts";
import { named } from "./named.ts";
import { byId, pageOf, pageSchema } from "./pages.ts";
import { namedStates, savedSchema, stateOf } from "./register-states.ts";
import { ifMatch, revisionOf, tagged } from "./revision.ts";
import { identityOf } from "./signed-in.ts";

const tags = ["equipment"];
const params = z.strictObject({ id: labelSchema });
const reason = line(200);

const date = z.enum(DUE_DATES);
const fault = named(
  "EquipmentFault",
  z.discriminatedUnion("is", [
    z.object({ is: z.literal("out"), cause: z.enum(OUT_CAUSES), words: z.string() }),
    z.object({ is: z.literal("overdue"), date, until: z.string(), bars: z.boolean() }),
    z.object({ is: z.literal("noDate"), date, bars: z.boolean() }),
    z.object({ is: z.literal("ending"), date, until: z.string() }),
  ]),
);
const listed = named(
  "ListedEquipment",
  z.object({
    body: houseEquipmentSchema,
    revision: z.number().int(),
    faults: z.array(fault).describe("What speaks against it now, the worst first"),
  }),
);

export interface HouseEquipmentRoutes {
  register: EquipmentRegister;
  directory: Directory;
}

/** Routes of the equipment in the house's register. Everybody may read it; supervisors change it. */
export const houseEquipmentRoutes: FastifyPluginAsyncZod<HouseEquipmentRoutes> = async (
  app,
  { register, directory },
) => {
  app.get(
    "/equipment",
    {
      schema: {
        operationId: "listEquipment",
        tags,
        summary: "Every piece of equipment of the house, by label, with what speaks against it now",
        querystring: pageSchema,
        response: { 200: z.array(listed) },
      },
    },
    async (request, reply) =>
      pageOf(reply, request.query, await register.list(), { of: ({ entry }) => byId(entry) }).map(view),
  );

  app.get(
    "/equipment/:id",
    {
      config: { problems: ["notFound"] },
      schema: {
        operationId: "readEquipment",
        tags,
        summary: "One piece of equipment by its label; its revision is the entity tag",
        params,
        response: { 200: listed },
      },
    },
    async (request, reply) => {
      const one = await register.one(request.params.id);
      return tagged(reply, one.entry).send(view(one));
    },
  );

  app.get(
    "/equipment/:id/changes",
    {
      schema: {
        operationId: "listEquipmentChanges",
        tags,
        summary: "The last states of a piece in the register, the newest first, and who entered each",
        params,
        response: { 200: z.array(stateOf(houseEquipmentSchema)).max(CHANGES) },
      },
    },
    async (request) => namedStates(await register.history(request.params.id), directory),
  );

  app.post(
    "/equipment",
    {
      config: { problems: ["faultyEntry", "notQualified", "taken"] },
      schema: {
        operationId: "addEquipment",
        tags,
        summary: "Add a piece of equipment in service",
        body: houseEquipmentSchema,
        response: { 201: savedSchema },
      },
    },
    async (request, reply) => {
      const { person } = identityOf(request);
      const body: HouseEquipment = { ...request.body, out: null };
      const entry = await register.add(person, body);
      auditTo(request.log).done("equipmentAdded", { person: person.id, path: `equipment/${entry.id}` });
      return tagged(reply, entry).code(201).send(entry);
    },
  );

  app.put(
    "/equipment/:id",
    {
      config: { problems: ["faultyEntry", "notFound", "notQualified", "revisionNeeded", "stale"] },
      schema: {
        operationId: "changeEquipment",
        tags,
        summary: "Change a piece of equipment as it was read (If-Match); its kind and its service stay",
        params,
        headers: ifMatch,
        body: houseEquipmentSchema,
        response: { 200: savedSchema },
      },
    },
    async (request, reply) => {
      const { person } = identityOf(request);
      const revision = revisionOf(request.headers["if-match"]);
      const { id } = request.params;
      const entry = await register.change(person, { ...request.body, id }, revision);
      auditTo(request.log).done("equipmentChanged", { person: person.id, path: `equipment/${id}` });
      return tagged(reply, entry).send(entry);
    },
  );

  app.put(
    "/equipment/:id/out",
    {
      config: { problems: ["notFound", "notQualified", "revisionNeeded", "stale"] },
      schema: {
        operationId: "setEquipmentOut",
        tags,
        summary:
          "Take a piece out of service as it was read (If-Match), or put it back with `out` null; both with a reason",
        params,
        headers: ifMatch,
        body: z.strictObject({ out: z.enum(OUT_CAUSES).nullable(), reason }),
        response: { 200: savedSchema },
      },
    },
    async (request, reply) => {
      const { person } = identityOf(request);
      const revision = revisionOf(request.headers["if-match"]);
      const { id } = request.params;
      const { out: cause, reason: why } = request.body;
      const out = cause === null ? null : { cause, words: why };
      const entry = await register.setOut(person, id, revision, out, why);
      const done = out ? "equipmentOut" : "equipmentBack";
      auditTo(request.log).done(done, { person: person.id, path: `equipment/${id}` });
      return tagged(reply, entry).send(entry);
    },
  );
};

function view({ entry, faults }: ListedEquipment) {
  return { body: entry.body, revision: entry.revision, faults };
}
