import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { timesBefore } from "../../shared/defects/lives.ts";
import { pictureSchema } from "../../shared/protocol/pictures.ts";
import { recordActionSchema } from "../../shared/protocol/recordEvents.ts";
import { refusalSchema } from "../../shared/protocol/refusal.ts";
import { lastReportedSchema, standingItemSchema } from "../../shared/protocol/standing.ts";
import { idSchema } from "../../shared/protocol/text.ts";
import type { AircraftRecords } from "../aircraft/records.ts";
import { personOf } from "../auth/identity.ts";
import type { DefectPictures } from "../pictures/defect-pictures.ts";
import type { Directory } from "../store/directory.ts";
import { engineCount } from "./engine-count.ts";
import { named } from "./named.ts";
import { pageOf, pageSchema } from "./pages.ts";
import { identityOf } from "./signed-in.ts";

interface AircraftRoutes {
  directory: Directory;
  records: AircraftRecords;
  pictures: Pick<DefectPictures, "kept">;
}

const params = z.strictObject({ id: idSchema });
const standing = named(
  "StandingAtAircraft",
  z.object({
    aircraft: z.string(),
    /** Id of the record: its evidence is exported under it, as a session's is. */
    record: z.string().nullable(),
    items: z.array(standingItemSchema),
    /** The aircraft's engine numbers as its record has them; empty before anything was recorded. */
    engines: z.array(z.number().int()),
    lastReported: lastReportedSchema.nullable(),
    /** Sessions that are not over. */
    open: z.array(z.string()),
  }),
);

const session = z.string().nullable();
const life = named(
  "DefectLife",
  z.object({
    no: z.number().int().describe("Its number in the aircraft's record"),
    id: z.string(),
    words: z.string(),
    engine: z.number().int().nullable(),
    barsStart: z.boolean(),
    written: z.object({ at: z.number(), name: z.string(), session }),
    deferrals: z.array(
      z.object({
        at: z.number(),
        name: z.string(),
        until: z.string().nullable().describe("The last day on which it bars no start, UTC"),
        starts: z.number().int().nullable().describe("The starts for which it bars none"),
        reason: z.string(),
      }),
    ),
    startedSince: z.array(z.string()).describe("Sessions that have used up a start of the last deferral"),
    mendings: z
      .array(z.object({ at: z.number(), name: z.string(), reason: z.string(), session }))
      .describe("What was done, where another person inspects it"),
    pictures: z.array(
      pictureSchema.extend({
        at: z.number(),
        name: z.string(),
        removed: z.object({ at: z.number(), name: z.string(), reason: z.string() }).nullable(),
        kept: z.boolean().describe("False once its bytes are gone"),
      }),
    ),
    closed: z
      .object({
        at: z.number(),
        name: z.string().nullable(),
        reason: z.string().nullable(),
        session,
        inspected: z.boolean().describe("Another person than the one who mended it inspected it"),
      })
      .nullable(),
    before: z.number().int().describe("How often the same words were written before at the same place"),
  }),
);

/** Routes about what stands at an aircraft, with or without a session. */
export const aircraftRoutes: FastifyPluginAsyncZod<AircraftRoutes> = async (
  app,
  { directory, records, pictures },
) => {
  app.get(
    "/standing",
    {
      schema: {
        operationId: "listStanding",
        tags: ["aircraft"],
        summary: "What stands at every aircraft, by its id",
        querystring: pageSchema,
        response: { 200: z.array(standing.extend({ name: z.string() })) },
      },
    },
    async (request, reply) => {
      const all = await Promise.all(
        (await directory.register.all("aircraft")).map(async ({ id, body: { name, retired } }) => {
          const stands = { ...(await standingAt(id)), name };
          // A retired aircraft is listed only while something stands at it.
          return retired && stands.items.length === 0 && stands.open.length === 0 ? [] : [stands];
        }),
      );
      return pageOf(reply, request.query, all.flat(), { of: ({ aircraft }) => [0, aircraft] });
    },
  );

  app.get(
    "/aircraft/:id/standing",
    {
      config: { problems: ["notFound"] },
      schema: {
        operationId: "readStanding",
        tags: ["aircraft"],
        summary:
          "Holds, cuts, fires, hands, leaves, turning engines, drills and defects that stand at the aircraft",
        params,
        response: { 200: standing },
      },
    },
    async (request) => {
      const { id } = await engineCount(directory, request.params.id);
      return standingAt(id);
    },
  );

  app.get(
    "/aircraft/:id/defects",
    {
      config: { problems: ["notFound"], scopes: ["readRecords"] },
      schema: {
        operationId: "listDefects",
        tags: ["aircraft"],
        summary: "The aircraft's defects from their writing to their closing, the newest first",
        params,
        querystring: pageSchema,
        response: { 200: z.array(life) },
      },
    },
    async (request, reply) => {
      const { id } = await engineCount(directory, request.params.id);
      const lives = await records.defects(id);
      const kept = await pictures.kept(id);
      const page = pageOf(reply, request.query, lives, { of: (l) => [l.no, l.id], newestFirst: true });
      return page.map((l) => ({
        ...l,
        startedSince: [...l.startedSince],
        pictures: l.pictures.map((p) => ({
          ...p,
          kept: p.removed === null && kept.has(`${l.no} ${p.sha256}`),
        })),
        before: timesBefore(lives, l),
      }));
    },
  );

  app.post(
    "/aircraft/:id/reports",
    {
      config: { problems: ["notFound"] },
      schema: {
        operationId: "reportAtAircraft",
        tags: ["aircraft"],
        summary:
          "A stop, where a fire burns or a defect, reported without a session; a defect deferred or inspected; or the end of what stands there",
        params,
        body: z.strictObject({ commandId: z.uuid(), action: recordActionSchema }),
        response: {
          200: z.discriminatedUnion("status", [
            z.object({ status: z.literal("accepted"), seq: z.number() }),
            z.object({ status: z.literal("refused"), refusal: refusalSchema }),
          ]),
        },
      },
    },
    async (request) => {
      const { id, engines } = await engineCount(directory, request.params.id);
      const { commandId, action } = request.body;
      const result = await records.act({ id, engines }, action, personOf(identityOf(request)), commandId);
      return result.status === "refused"
        ? { status: "refused" as const, refusal: result.refusal }
        : { status: "accepted" as const, seq: result.seq };
    },
  );

  async function standingAt(id: string) {
    const record = await records.read(id);
    return {
      aircraft: id,
      record: record?.id ?? null,
      items: record?.items ?? [],
      engines: record?.engines.map((e) => e.n) ?? [],
      lastReported: record?.lastReported ?? null,
      open: Object.keys(record?.open ?? {}),
    };
  }
};
