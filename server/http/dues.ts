import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { inspectionSchema } from "../../shared/dues/inspection.ts";
import { engineSchema } from "../../shared/protocol/commands.ts";
import { DUE_DATES } from "../../shared/protocol/equipmentKinds.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import { idSchema, line } from "../../shared/protocol/text.ts";
import { SPOKEN } from "../../shared/words/spoken.ts";
import { auditTo } from "../audit.ts";
import type { Clock } from "../clock.ts";
import { duesCalendar } from "../house/calendar.ts";
import { asPlanner } from "../house/currencies.ts";
import type { Dues } from "../house/dues.ts";
import { CHANGES } from "../house/entries.ts";
import type { Inspections } from "../house/inspections.ts";
import type { Directory } from "../store/directory.ts";
import { text } from "./download.ts";
import { languageOf } from "./language.ts";
import { named } from "./named.ts";
import { byId, pageOf, pageSchema } from "./pages.ts";
import { namedStates, savedSchema, stateOf } from "./register-states.ts";
import { ifMatch, revisionOf, tagged } from "./revision.ts";
import { identityOf } from "./signed-in.ts";

const tags = ["dues"];
const params = z.strictObject({ id: idSchema });
const common = {
  key: z.string(),
  until: z.number().nullable().describe("Server milliseconds after the last day"),
  is: z.enum(["over", "soon", "later"]),
};
const due = named(
  "Due",
  z.discriminatedUnion("of", [
    z.object({
      of: z.literal("person"),
      ...common,
      person: z.string(),
      who: z.string(),
      name: z.string(),
      post: z.enum(POSTS),
      bars: z.boolean(),
    }),
    z.object({
      of: z.literal("equipment"),
      ...common,
      label: z.string(),
      name: z.string(),
      date: z.enum(DUE_DATES),
      bars: z.boolean(),
    }),
    z.object({
      of: z.literal("inspection"),
      ...common,
      id: z.string(),
      aircraft: z.string(),
      engine: engineSchema.nullable(),
      name: z.string(),
      source: z.string(),
      by: z.enum(["days", "hours", "starts"]),
      hoursLeft: z.number().nullable(),
      startsLeft: z.number().nullable(),
    }),
    z.object({ of: z.literal("blades"), ...common, aircraft: z.string(), engines: z.array(z.number()) }),
  ]),
);

export interface DuesRoutes {
  inspections: Inspections;
  dues: Dues;
  directory: Directory;
  clock: Clock;
}

/** Routes of what is due, and of the inspections of aircraft. Those who plan read them; supervisors enter. */
export const duesRoutes: FastifyPluginAsyncZod<DuesRoutes> = async (
  app,
  { inspections, dues, directory, clock },
) => {
  app.get(
    "/dues",
    {
      config: { problems: ["notQualified"] },
      schema: {
        operationId: "listDues",
        tags,
        summary: "Everything with a last day or hour, by its key; for those who plan",
        querystring: pageSchema,
        response: { 200: z.array(due) },
      },
    },
    async (request, reply) => {
      asPlanner(identityOf(request).person);
      return pageOf(reply, request.query, await dues.list(), { of: ({ key }) => [0, key] });
    },
  );

  app.get(
    "/dues.ics",
    {
      config: { problems: ["notQualified"] },
      schema: {
        operationId: "readDueCalendar",
        tags,
        summary: "The last days as a calendar (RFC 5545), in the language asked for; for those who plan",
        produces: ["text/calendar"],
        response: { 200: text("The calendar") },
      },
      serializerCompiler: () => (calendar) => calendar as unknown as string,
    },
    async (request, reply) => {
      asPlanner(identityOf(request).person);
      return reply
        .header("content-type", "text/calendar; charset=utf-8")
        .header("content-disposition", 'attachment; filename="chockside-dues.ics"')
        .send(duesCalendar(await dues.list(), SPOKEN[languageOf(request)], clock.now()));
    },
  );

  app.get(
    "/inspections",
    {
      schema: {
        operationId: "listInspections",
        tags,
        summary: "What must be done to the house's aircraft again and again, by id",
        querystring: pageSchema,
        response: { 200: z.array(inspectionSchema.extend({ revision: z.number().int() })) },
      },
    },
    async (request, reply) =>
      pageOf(reply, request.query, await inspections.all(), { of: byId }).map(({ body, revision }) => ({
        ...body,
        revision,
      })),
  );

  app.get(
    "/inspections/:id/changes",
    {
      config: { problems: ["notFound"] },
      schema: {
        operationId: "listInspectionChanges",
        tags,
        summary:
          "The last states of an inspection, the newest first: each time it was done, and who entered it",
        params,
        response: { 200: z.array(stateOf(inspectionSchema)).max(CHANGES) },
      },
    },
    async (request) => namedStates(await inspections.history(request.params.id), directory),
  );

  app.post(
    "/inspections",
    {
      config: { problems: ["faultyEntry", "notQualified", "taken"] },
      schema: {
        operationId: "addInspection",
        tags,
        summary: "Add an inspection",
        body: inspectionSchema,
        response: { 201: savedSchema },
      },
    },
    async (request, reply) => {
      const { person } = identityOf(request);
      const entry = await inspections.add(person, request.body);
      auditTo(request.log).done("inspectionAdded", { person: person.id, path: `inspections/${entry.id}` });
      return tagged(reply, entry).code(201).send(entry);
    },
  );

  app.put(
    "/inspections/:id",
    {
      config: { problems: ["faultyEntry", "notFound", "notQualified", "revisionNeeded", "stale"] },
      schema: {
        operationId: "changeInspection",
        tags,
        summary: "Change an inspection as it was read (If-Match)",
        params,
        headers: ifMatch,
        body: inspectionSchema.omit({ id: true }),
        response: { 200: savedSchema },
      },
    },
    async (request, reply) => {
      const { person } = identityOf(request);
      const { id } = request.params;
      const revision = revisionOf(request.headers["if-match"]);
      const entry = await inspections.change(person, { ...request.body, id }, revision);
      auditTo(request.log).done("inspectionChanged", { person: person.id, path: `inspections/${id}` });
      return tagged(reply, entry).send(entry);
    },
  );

  app.put(
    "/inspections/:id/done",
    {
      config: { problems: ["faultyEntry", "notFound", "notQualified", "revisionNeeded", "stale"] },
      schema: {
        operationId: "enterInspectionDone",
        tags,
        summary: "Enter that an inspection was done, and what was done (If-Match)",
        params,
        headers: ifMatch,
        body: z.strictObject({ last: inspectionSchema.shape.last.unwrap(), words: line(200) }),
        response: { 200: savedSchema },
      },
    },
    async (request, reply) => {
      const { person } = identityOf(request);
      const { id } = request.params;
      const revision = revisionOf(request.headers["if-match"]);
      const { last, words } = request.body;
      const entry = await inspections.done(person, id, revision, last, words);
      auditTo(request.log).done("inspectionDone", { person: person.id, path: `inspections/${id}` });
      return tagged(reply, entry).send(entry);
    },
  );
};
