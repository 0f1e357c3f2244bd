import { Readable } from "node:stream";
import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { idSchema } from "../../shared/protocol/text.ts";
import type { Clock } from "../clock.ts";
import { EVIDENCE_FORMS, type EvidenceForm, type ExportDeps, exportOf } from "../evidence/export.ts";
import { historyExport } from "../evidence/history-export.ts";
import { NoSuchSession } from "../sessions/errors.ts";
import type { RegisterStore } from "../store/register.ts";
import { download } from "./download.ts";
import { ProblemError } from "./problem.ts";

const FORMS = Object.keys(EVIDENCE_FORMS) as [EvidenceForm, ...EvidenceForm[]];

interface EvidenceRoutes extends ExportDeps {
  register: Pick<RegisterStore, "one">;
  clock: Clock;
}

export const evidenceRoutes: FastifyPluginAsyncZod<EvidenceRoutes> = async (
  app,
  { store, notary, names, register, clock },
) => {
  app.get(
    "/sessions/:id/evidence",
    {
      config: { costly: true, problems: ["notFound"], scopes: ["readRecords"] },
      schema: {
        operationId: "exportSession",
        tags: ["evidence"],
        summary: "The session's record: exact and verifiable (ndjson, json), or for a spreadsheet (csv)",
        params: z.strictObject({ id: idSchema }),
        querystring: z.strictObject({ as: z.enum(FORMS).default("ndjson") }),
        produces: Object.values(EVIDENCE_FORMS).map(({ media }) => bare(media)),
        response: { 200: download("The file") },
      },
      // Send the stored bytes unchanged: a serializer would write them anew.
      serializerCompiler: () => String,
    },
    async (request, reply) => {
      const { id } = request.params;
      const { as } = request.query;
      const row = await store.session(id);
      if (!row) throw new NoSuchSession(`there is no session ${id}`);
      const day = new Date(row.createdAt).toISOString().slice(0, 10);
      const name = `chockside-${row.aircraft}-${day}-${row.code}.${as}`;
      return reply
        .header("content-type", EVIDENCE_FORMS[as].media)
        .header("content-disposition", `attachment; filename="${name}"`)
        .header("cache-control", "no-store")
        .send(Readable.from(exportOf({ store, notary, names }, row, as, clock.now())));
    },
  );

  app.get(
    "/aircraft/:id/evidence",
    {
      config: { costly: true, problems: ["notFound"], scopes: ["readRecords"] },
      schema: {
        operationId: "exportAircraft",
        tags: ["evidence"],
        summary: "Everything kept of an aircraft as one signed file: its own record and each of its sessions",
        params: z.strictObject({ id: idSchema }),
        produces: [bare(EVIDENCE_FORMS.ndjson.media)],
        response: { 200: download("The file") },
      },
      serializerCompiler: () => String,
    },
    async (request, reply) => {
      const { id } = request.params;
      if (!(await register.one("aircraft", id)))
        throw new ProblemError("notFound", "There is no aircraft with this id");
      const now = clock.now();
      const name = `chockside-${id}-history-${new Date(now).toISOString().slice(0, 10)}.ndjson`;
      return reply
        .header("content-type", EVIDENCE_FORMS.ndjson.media)
        .header("content-disposition", `attachment; filename="${name}"`)
        .header("cache-control", "no-store")
        .send(Readable.from(historyExport({ store, notary, names }, id, now)));
    },
  );
};

/** Returns a media type without its parameters. */
const bare = (media: string): string => media.split(";", 1)[0] ?? media;
