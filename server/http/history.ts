import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { historyCsv } from "../../shared/history/csv.ts";
import { HISTORY_FIGURE_IDS, HISTORY_FIGURES } from "../../shared/history/figures.ts";
import { houseCsv } from "../../shared/history/house/csv.ts";
import { houseFiguresSchema } from "../../shared/history/house/schema.ts";
import { type StartRow, startRowSchema } from "../../shared/history/row.ts";
import { unitSchema } from "../../shared/protocol/quantity.ts";
import { idSchema, line } from "../../shared/protocol/text.ts";
import type { Clock } from "../clock.ts";
import type { Pseudonyms } from "../evidence/names.ts";
import type { EngineHistories } from "../history/engines.ts";
import { SESSIONS_READ } from "../history/starts.ts";
import type { Directory } from "../store/directory.ts";
import { csvReply } from "./csv-reply.ts";
import { named } from "./named.ts";
import { pageOf, pageSchema } from "./pages.ts";
import { ProblemError } from "./problem.ts";
import { jsonReply, rowsText } from "./rows-text.ts";

const tags = ["history"];
/** Weeks that the house's figures cover: half a year, unless asked otherwise. */
const WEEKS = 26;
const WEEKS_MOST = 104;
const as = z.strictObject({ as: z.enum(["json", "csv"]).default("json") });
const side = z.enum(["high", "low"]);
const number = z.number();
const note = named(
  "HistoryNote",
  z.object({
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
  }),
);
const figures = z.record(
  z.string(),
  z.object({ unit: unitSchema.nullable(), worse: z.enum(["high", "low", "either"]), source: z.string() }),
);
const FIGURES = figures.parse(HISTORY_FIGURES);
const base = {
  figures: figures.describe("Each figure's unit (null: as read) and source"),
  rows: z.array(startRowSchema).describe(`The starts of the newest ${SESSIONS_READ} sessions, oldest first`),
  more: z.boolean().describe("True when older starts were left out"),
  notes: z.array(note),
};
const engineHistory = z.object({
  serial: z.string(),
  fitted: z.object({ aircraft: z.string(), n: number, hours: number.nullable() }).nullable(),
  ...base,
});
const houseHistory = houseFiguresSchema.extend({
  from: number.describe("Monday, 00:00 UTC, of the first week"),
  to: number,
  most: number.describe("Most sessions that are read, the newest"),
  more: z.boolean().describe("True when older sessions of these weeks were left out"),
});
const aircraftHistory = z.object({ aircraft: z.string(), ...base });

export interface HistoryRoutes {
  directory: Directory;
  histories: EngineHistories;
  names: Pseudonyms;
  clock: Clock;
}

/** Routes of the starts that an aircraft or an engine has made, and of what they show. */
export const historyRoutes: FastifyPluginAsyncZod<HistoryRoutes> = async (
  app,
  { directory, histories, names, clock },
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
        operationId: "readAircraftHistory",
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
      const { rows, ...rest } = await histories.aircraft(id);
      if (request.query.as === "csv")
        return csvReply(reply, `aircraft-${id}`, historyCsv(await withNames(rows))) as never;
      return jsonReply(reply, await historyText({ aircraft: id, ...rest }, rows)) as never;
    },
  );

  app.get(
    "/aircraft/:id/notes",
    {
      config: { problems: ["notFound"], scopes: ["readRecords"] },
      schema: {
        operationId: "listHistoryNotes",
        tags,
        summary: "What the aircraft's engines do otherwise than before, by their last starts",
        params: z.strictObject({ id: idSchema }),
        querystring: pageSchema,
        response: { 200: z.array(note) },
      },
    },
    async ({ params: { id }, query }, reply) => {
      await registered(id);
      return pageOf(reply, query, await histories.notesFor(id), {
        of: ({ n, figure, side, found }) => [n, `${figure} ${side} ${found.is}`],
      });
    },
  );

  app.get(
    "/engines/:serial/history",
    {
      config,
      schema: {
        operationId: "readEngineHistory",
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
      const { rows, ...rest } = engine;
      if (request.query.as === "csv")
        return csvReply(reply, `engine-${serial}`, historyCsv(await withNames(rows))) as never;
      return jsonReply(reply, await historyText(rest, rows)) as never;
    },
  );

  app.get(
    "/house/history",
    {
      config: { costly: true, problems: [], scopes: ["readRecords"] },
      schema: {
        operationId: "readHouseHistory",
        tags,
        summary:
          "How the starts of every aircraft went in the last weeks: what delayed them, alerts, touches",
        querystring: as.extend({ weeks: z.coerce.number().int().min(1).max(WEEKS_MOST).default(WEEKS) }),
        response: { 200: houseHistory },
      },
    },
    async (request, reply) => {
      const { weeks, as: form } = request.query;
      const figures = await withNames(await histories.house(clock.now(), weeks));
      if (form === "csv") return csvReply(reply, "house", houseCsv(figures)) as never;
      return figures;
    },
  );

  async function registered(id: string): Promise<void> {
    if (!(await directory.register.one("aircraft", id)))
      throw new ProblemError("notFound", "There is no aircraft with this id");
  }

  /** Returns an answer as text, with people's names. */
  async function historyText(rest: object, rows: readonly StartRow[]): Promise<string> {
    const text = `${JSON.stringify({ ...rest, figures: FIGURES }).slice(0, -1)},"rows":${rowsText(rows)}}`;
    await names.loadFor([text]);
    return names.reveal(text);
  }

  /** Returns this with people's names. They are looked up for each answer: a person may have been erased since. */
  async function withNames<T>(told: T): Promise<T> {
    const sealed = JSON.stringify(told);
    await names.loadFor([sealed]);
    return JSON.parse(names.reveal(sealed)) as T;
  }
};
