import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { defectTrendCsv, survivalCsv } from "../../shared/history/lives/csv.ts";
import { defectTrendSchema } from "../../shared/history/lives/defectTrend.ts";
import { survivalSchema } from "../../shared/history/lives/survival.ts";
import { idSchema } from "../../shared/protocol/text.ts";
import type { Lives } from "../history/lives.ts";
import type { Directory } from "../store/directory.ts";
import { csvReply } from "./csv-reply.ts";
import { ProblemError } from "./problem.ts";

const tags = ["history"];
const scopes = ["readRecords"] as const;
const as = z.strictObject({ as: z.enum(["json", "csv"]).default("json") });
const house = z.object({
  all: z.array(survivalSchema).describe("Starters, carts and extinguishers"),
  most: z.number().describe("Most sessions that are read, the newest"),
  more: z.boolean().describe("True when older sessions were left out"),
});

/** Routes of how long equipment stays in use, and of the trend of an aircraft's defects. */
export const livesRoutes: FastifyPluginAsyncZod<{ lives: Lives; directory: Directory }> = async (
  app,
  { lives, directory },
) => {
  app.get(
    "/house/lives",
    {
      config: { costly: true, problems: [], scopes },
      schema: {
        operationId: "readEquipmentLives",
        tags,
        summary: "How many starts starters, carts and extinguishers last: Kaplan and Meier, and Weibull",
        querystring: as,
        response: { 200: house },
      },
    },
    async (request, reply) => {
      const told = await lives.house();
      if (request.query.as === "csv") return csvReply(reply, "lives", survivalCsv(told.all)) as never;
      return told;
    },
  );

  app.get(
    "/aircraft/:id/defects/trend",
    {
      config: { costly: true, problems: ["notFound"], scopes },
      schema: {
        operationId: "readDefectTrend",
        tags,
        summary:
          "Whether the aircraft's defects become rarer: power law with its interval, and Laplace's test",
        params: z.strictObject({ id: idSchema }),
        querystring: as,
        response: { 200: defectTrendSchema },
      },
    },
    async (request, reply) => {
      const { id } = request.params;
      if (!(await directory.register.one("aircraft", id)))
        throw new ProblemError("notFound", "There is no aircraft with this id");
      const trend = await lives.defects(id);
      if (request.query.as === "csv") return csvReply(reply, `defects-${id}`, defectTrendCsv(trend)) as never;
      return trend;
    },
  );
};
