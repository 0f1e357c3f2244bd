import type { FastifyReply } from "fastify";
import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { historyCsv } from "../../shared/history/csv.ts";
import { HISTORY_FIGURE_IDS, HISTORY_FIGURES } from "../../shared/history/figures.ts";
import { type StartRow, startRowSchema } from "../../shared/history/row.ts";
import { unitSchema } from "../../shared/protocol/quantity.ts";
import { idSchema, line } from "../../shared/protocol/text.ts";
import type { Pseudonyms } from "../evidence/names.ts";
import type { EngineHistories } from "../history/engines.ts";
import type { Directory } from "../store/directory.ts";
import { ProblemError } from "./problem.ts";

const tags = ["history"];
const as = z.strictObject({ as: z.enum(["json", "csv"]).default("json") });
const side = z.enum(["high", "low"]);
const number = z.number();
const note = z.object({
  aircraft: z.string(),
  n: number,
  serial: z.string(),
  figure: z.enum(HISTORY_FIGURE_IDS as [string, ...string[]]),
  side,
  unit: unitSchema,
  baseline: z.object({ count: number, from: number, to: number }),
  found: z.discriminatedUnion("is", [
    z.object({ is: z.literal("start"), value: number, limit: number }),
    z.object({ is: z.literal("average"), value: number, usual: number, since: number }),
  ]),
  at: number,
  session: z.string(),
});
const figures = z.record(
  z.string(),
  z.object({ unit: unitSchema.nullable(), worse: z.enum(["high", "low", "either"]), source: z.string() }),
);
const base = {
  figures: figures.describe("Each figure's unit (null: as read) and source"),
  rows: z.array(startRowSchema).describe("The starts, oldest first"),
  more: z.boolean().describe("True when older starts were left out"),
  notes: z.array(note),
};
const engineHistory = z.object({
  serial: z.string(),
  fitted: z.object({ aircraft: z.string(), n: number, hours: number.nullable() }).nullable(),
  ...base,
});
const aircraftHistory = z.object({ aircraft: z.string(), ...base });

export interface HistoryRoutes {
  directory: Directory;
  histories: EngineHistories;
  names: Pseudonyms;
}

/** Routes of the starts that an aircraft or an engine has made, and of what they show. */
export const historyRoutes: FastifyPluginAsyncZod<HistoryRoutes> = async (
  app,
  { directory, histories, names },
) => {
  const config = {
    costly: true,
    problems: ["notFound"] as const,
    scopes: ["readRecords"] as const,
  };

  app.get(
    "/aircraft/:id/history",
    {
      config,
      schema: {
        tags,
        summary: "Every start of the aircraft's engines, and what its engines do otherwise than before",
        params: z.strictObject({ id: idSchema }),
        querystring: as,
        response: { 200: aircraftHistory },
      },
    },
    async (request, reply) => {
      const { id } = request.params;
      await registered(id);
      const starts = await histories.aircraft(id);
      const rows = await named(starts.rows);
      if (request.query.as === "csv") return csv(reply, `aircraft-${id}`, rows) as never;
      return { aircraft: id, figures: HISTORY_FIGURES, ...starts, rows, notes: await histories.notesFor(id) };
    },
  );

  app.get(
    "/aircraft/:id/notes",
    {
      config: { problems: ["notFound"], scopes: ["readRecords"] },
      schema: {
        tags,
        summary: "What the aircraft's engines do otherwise than before, by their last starts",
        params: z.strictObject({ id: idSchema }),
        response: { 200: z.array(note) },
      },
    },
    async ({ params: { id } }) => {
      await registered(id);
      return histories.notesFor(id);
    },
  );

  app.get(
    "/engines/:serial/history",
    {
      config,
      schema: {
        tags,
        summary: "Every start of the engine with this serial number, at whatever aircraft",
        params: z.strictObject({ serial: line(40) }),
        querystring: as,
        response: { 200: engineHistory },
      },
    },
    async (request, reply) => {
      const { serial } = request.params;
      const engine = await histories.engine(serial);
      if (!engine) throw new ProblemError("notFound", "No aircraft of the register has or had this engine");
      const rows = await named(engine.rows);
      if (request.query.as === "csv") return csv(reply, `engine-${serial}`, rows) as never;
      return { ...engine, figures: HISTORY_FIGURES, rows };
    },
  );

  async function registered(id: string): Promise<void> {
    if (!(await directory.register.one("aircraft", id)))
      throw new ProblemError("notFound", "There is no aircraft with this id");
  }

  /** Returns the rows with people's names. They are looked up for each answer: a person may have been erased since. */
  async function named(rows: readonly StartRow[]): Promise<StartRow[]> {
    const sealed = JSON.stringify(rows);
    await names.loadFor([sealed]);
    return JSON.parse(names.reveal(sealed)) as StartRow[];
  }
};

function csv(reply: FastifyReply, name: string, rows: readonly StartRow[]): FastifyReply {
  const safe = name.replace(/[^\w.-]/g, "_");
  return reply
    .header("content-type", "text/csv; charset=utf-8; header=present")
    .header("content-disposition", `attachment; filename="chockside-${safe}.csv"`)
    .header("cache-control", "no-store")
    .serializer(String)
    .send(historyCsv(rows));
}
