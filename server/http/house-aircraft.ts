import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { houseAircraftSchema } from "../../shared/house/aircraft.ts";
import { engineSchema } from "../../shared/protocol/commands.ts";
import { hoursSchema } from "../../shared/protocol/fitted.ts";
import { idSchema, line } from "../../shared/protocol/text.ts";
import { auditTo } from "../audit.ts";
import type { AircraftRegister, ListedAircraft } from "../house/aircraft.ts";
import { CHANGES } from "../house/entries.ts";
import type { Directory } from "../store/directory.ts";
import { named } from "./named.ts";
import { byId, pageOf, pageSchema } from "./pages.ts";
import { namedStates, savedSchema, stateOf } from "./register-states.ts";
import { ifMatch, revisionOf, tagged } from "./revision.ts";
import { identityOf } from "./signed-in.ts";

const tags = ["aircraft"];
const params = z.strictObject({ id: idSchema });
const reason = line(200);
const entered = houseAircraftSchema.omit({ retired: true });
const version = z.number().int();

const bar = named(
  "PlanBar",
  z.discriminatedUnion("is", [
    z.object({ is: z.literal("retired") }),
    z.object({ is: z.literal("noneApproved"), typeId: z.string() }),
    z.object({ is: z.literal("notApproved"), version, newest: version }),
    z.object({ is: z.literal("superseded"), version, newest: version }),
  ]),
);
const listed = named(
  "ListedAircraft",
  z.object({
    ...houseAircraftSchema.shape,
    revision: z.number().int(),
    typeName: z.string(),
    newest: version.nullable().describe("The approved version of its type"),
    bar: bar.nullable().describe("Why it cannot be planned"),
  }),
);

export interface HouseAircraftRoutes {
  register: AircraftRegister;
  directory: Directory;
}

/** Routes of the aircraft in the house's register. Everybody may read them; supervisors change them. */
export const houseAircraftRoutes: FastifyPluginAsyncZod<HouseAircraftRoutes> = async (
  app,
  { register, directory },
) => {
  app.get(
    "/aircraft",
    {
      schema: {
        operationId: "listAircraft",
        tags,
        summary: "Every aircraft of the house, by id, with the reason why it cannot be planned",
        querystring: pageSchema,
        response: { 200: z.array(listed) },
      },
    },
    async (request, reply) =>
      pageOf(reply, request.query, await register.list(), { of: ({ entry }) => byId(entry) }).map(view),
  );

  app.get(
    "/aircraft/:id",
    {
      schema: {
        operationId: "readAircraft",
        tags,
        summary: "One aircraft; its revision is the entity tag",
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
    "/aircraft/:id/changes",
    {
      config: { problems: ["notFound"] },
      schema: {
        operationId: "listAircraftChanges",
        tags,
        summary: "The last states of an aircraft in the register, the newest first, and who entered each",
        params,
        response: { 200: z.array(stateOf(houseAircraftSchema)).max(CHANGES) },
      },
    },
    async (request) => namedStates(await register.history(request.params.id), directory),
  );

  app.post(
    "/aircraft",
    {
      config: { problems: ["faultyEntry", "notQualified", "taken"] },
      schema: {
        operationId: "addAircraft",
        tags,
        summary: "Add an aircraft, on the approved version of its type",
        body: entered,
        response: { 201: savedSchema },
      },
    },
    async (request, reply) => {
      const { person } = identityOf(request);
      const entry = await register.add(person, { ...request.body, retired: false });
      auditTo(request.log).done("aircraftAdded", { person: person.id, path: `aircraft/${entry.id}` });
      return tagged(reply, entry).code(201).send(entry);
    },
  );

  app.put(
    "/aircraft/:id",
    {
      config: { problems: ["faultyEntry", "notFound", "notQualified", "revisionNeeded", "stale"] },
      schema: {
        operationId: "changeAircraft",
        tags,
        summary: "Change an aircraft as it was read (If-Match); fewer hours need a reason",
        params,
        headers: ifMatch,
        body: z.strictObject({ ...entered.omit({ id: true }).shape, reason: reason.nullish() }),
        response: { 200: savedSchema },
      },
    },
    async (request, reply) => {
      const { person } = identityOf(request);
      const revision = revisionOf(request.headers["if-match"]);
      const { reason: why = null, ...rest } = request.body;
      const { id } = request.params;
      const entry = await register.change(person, { ...rest, id, retired: false }, revision, why);
      auditTo(request.log).done("aircraftChanged", { person: person.id, path: `aircraft/${id}` });
      return tagged(reply, entry).send(entry);
    },
  );

  app.put(
    "/aircraft/:id/retired",
    {
      config: { problems: ["notFound", "notQualified", "revisionNeeded", "stale"] },
      schema: {
        operationId: "retireAircraft",
        tags,
        summary: "Retire an aircraft as it was read (If-Match), or take it back into service, with a reason",
        params,
        headers: ifMatch,
        body: z.strictObject({ retired: z.boolean(), reason }),
        response: { 200: savedSchema },
      },
    },
    async (request, reply) => {
      const { person } = identityOf(request);
      const revision = revisionOf(request.headers["if-match"]);
      const { id } = request.params;
      const { retired, reason: why } = request.body;
      const entry = await register.retire(person, id, revision, retired, why);
      const done = retired ? "aircraftRetired" : "aircraftTakenBack";
      auditTo(request.log).done(done, { person: person.id, path: `aircraft/${id}` });
      return tagged(reply, entry).send(entry);
    },
  );

  app.post(
    "/aircraft/:id/hours",
    {
      config: { problems: ["faultyEntry", "notFound", "notQualified", "revisionNeeded", "stale"] },
      schema: {
        operationId: "enterAircraftHours",
        tags,
        summary: "Enter engines' and propellers' hours after a start (If-Match); they do not fall",
        params,
        headers: ifMatch,
        body: z.strictObject({
          hours: z
            .array(
              z.strictObject({
                n: engineSchema,
                engine: hoursSchema.nullable(),
                propeller: hoursSchema.nullable(),
              }),
            )
            .min(1)
            .max(8),
        }),
        response: { 200: savedSchema },
      },
    },
    async (request, reply) => {
      const { person } = identityOf(request);
      const revision = revisionOf(request.headers["if-match"]);
      const entry = await register.hours(person, request.params.id, revision, request.body.hours);
      auditTo(request.log).done("hoursEntered", { person: person.id, path: `aircraft/${entry.id}` });
      return tagged(reply, entry).send(entry);
    },
  );
};

function view({ entry, ...about }: ListedAircraft) {
  return { ...entry.body, revision: entry.revision, ...about };
}
