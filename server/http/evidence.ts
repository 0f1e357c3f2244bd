import { Readable } from "node:stream";
import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { idSchema } from "../../shared/protocol/text.ts";
import type { Clock } from "../clock.ts";
import { EVIDENCE_FORMS, type EvidenceForm, type ExportDeps, exportOf } from "../evidence/export.ts";
import { NoSuchSession } from "../sessions/errors.ts";

const FORMS = Object.keys(EVIDENCE_FORMS) as [EvidenceForm, ...EvidenceForm[]];

export const evidenceRoute: FastifyPluginAsyncZod<ExportDeps & { clock: Clock }> = async (
  app,
  { store, notary, names, clock },
) => {
  app.get(
    "/sessions/:id/evidence",
    {
      config: { costly: true, problems: ["notFound"], scopes: ["readRecords"] },
      schema: {
        tags: ["evidence"],
        summary: "The session's record: exact and verifiable (ndjson, json), or for a spreadsheet (csv)",
        params: z.strictObject({ id: idSchema }),
        querystring: z.strictObject({ as: z.enum(FORMS).default("ndjson") }),
        response: { 200: z.any().describe("A download") },
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
};
