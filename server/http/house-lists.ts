import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { LISTS } from "../../shared/house/lists/list.ts";
import { auditTo } from "../audit.ts";
import type { HouseLists } from "../house/lists.ts";
import { download } from "./download.ts";
import { named } from "./named.ts";
import { cutting, type OnPurposeDeps, onPurpose } from "./on-purpose.ts";
import { identityOf } from "./signed-in.ts";

const tags = ["house"];
const params = z.strictObject({ kind: z.enum(LISTS) });

/** A list with every line full; a request of this route may be larger than others. Characters and bytes. */
const MOST_TEXT = 400_000;
const BODY_BYTES = 1024 * 1024;
const csv = z.string().max(MOST_TEXT, `must be at most ${MOST_TEXT} characters`);

const judged = named(
  "JudgedList",
  z.object({
    rows: z.array(
      z.object({
        line: z.number().int(),
        id: z.string(),
        is: z.enum(["added", "changed", "same"]),
        cells: z.array(z.object({ column: z.string(), before: z.string(), after: z.string() })),
      }),
    ),
    faults: z.array(z.object({ line: z.number().int(), column: z.string().nullable(), message: z.string() })),
    tag: z.string().describe("Identifies what the file would do; it is sent back to do it"),
  }),
);

export interface HouseListRoutes extends OnPurposeDeps {
  lists: HouseLists;
}

/** Routes by which supervisors take the house's people, aircraft and equipment out and in as CSV (RFC 4180). */
export const houseListRoutes: FastifyPluginAsyncZod<HouseListRoutes> = async (app, { lists, ...deps }) => {
  app.get(
    "/house/lists/:kind",
    {
      config: { problems: ["notQualified"] },
      schema: {
        operationId: "downloadHouseList",
        tags,
        summary:
          "People, aircraft or equipment as a CSV file, without PINs; for those qualified as supervisor",
        params,
        produces: ["text/csv"],
        response: { 200: download("The file") },
      },
      // The file is text already.
      serializerCompiler: () => String,
    },
    async (request, reply) => {
      const { kind } = request.params;
      const { person } = identityOf(request);
      const file = await lists.save(person, kind);
      auditTo(request.log).done("listSaved", { person: person.id, path: `house/lists/${kind}` });
      return reply
        .header("content-type", "text/csv; charset=utf-8; header=present")
        .header("content-disposition", `attachment; filename="chockside-${kind}.csv"`)
        .header("cache-control", "no-store")
        .send(file);
    },
  );

  app.post(
    "/house/lists/:kind/judgement",
    {
      bodyLimit: BODY_BYTES,
      config: { problems: ["notQualified"] },
      schema: {
        operationId: "judgeHouseList",
        tags,
        summary: "What a CSV file would change, line by line, and what is wrong with it; nothing is changed",
        params,
        body: z.strictObject({ csv }),
        response: { 200: judged },
      },
    },
    (request) => lists.judge(identityOf(request).person, request.params.kind, request.body.csv),
  );

  app.post(
    "/house/lists/:kind",
    {
      bodyLimit: BODY_BYTES,
      config: {
        problems: ["faultyEntry", "locked", "notQualified", "onDuty", "revisionNeeded", "stale", "wrongPin"],
      },
      schema: {
        operationId: "takeHouseList",
        tags,
        summary: "Take a CSV file in as it was judged: all of it or nothing; what it does not name stays",
        params,
        body: z.strictObject({ csv, tag: z.string().max(64), ...cutting }),
        response: { 200: judged },
      },
    },
    async (request) => {
      const identity = identityOf(request);
      const { kind } = request.params;
      const { csv: text, tag, ...sure } = request.body;
      const done = await lists.take(identity.person, kind, { text, tag }, async (losing) => {
        if (losing.length > 0) await onPurpose(deps, identity, sure, (held) => losing.includes(held.id));
      });
      auditTo(request.log).done("listTaken", { person: identity.person.id, path: `house/lists/${kind}` });
      return done;
    },
  );
};
