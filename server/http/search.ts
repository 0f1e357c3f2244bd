import type { FastifyPluginAsyncZod } from "fastify-type-provider-zod";
import { z } from "zod";
import { WRITTEN_KINDS, writtenSchema } from "../../shared/history/written/written.ts";
import { daySchema } from "../../shared/protocol/equipment.ts";
import { idSchema } from "../../shared/protocol/text.ts";
import type { Writings } from "../history/writings.ts";
import type { Position } from "../store/search-index.ts";
import { linkNext } from "./pages.ts";

const DAY_MS = 86_400_000;
const CURSOR = /^(\d{1,15})\.([\w-]{1,80}(?:\.[\w-]{1,80})*)\.(\d{1,9})\.(\d{1,3})$/;

const answer = z.object({
  found: z.array(writtenSchema).describe("The newest first, with people as they are known now"),
  next: z.string().nullable().describe("The value of `before` for the next page; null on the last one"),
  unread: z.number().int().describe("Sessions and records that the index has not read to their end yet"),
});

/** The route that searches everything written in the records. */
export const searchRoutes: FastifyPluginAsyncZod<{ writings: Writings }> = async (app, { writings }) => {
  app.get(
    "/search",
    {
      config: { costly: true, problems: [], scopes: ["readRecords"] },
      schema: {
        operationId: "searchRecords",
        tags: ["history"],
        summary:
          "Everything written in the records, without rehearsals: places, notes, reasons, defects, refusals, names",
        querystring: z.strictObject({
          q: z.string().max(200).default("").describe("Beginnings of words, in any order; all must be there"),
          aircraft: idSchema.optional(),
          kind: z.enum(WRITTEN_KINDS).optional(),
          from: daySchema.optional().describe("First day, UTC"),
          to: daySchema.optional().describe("Last day, UTC"),
          before: z.string().regex(CURSOR, "must be the `next` of an answer").optional(),
          limit: z.coerce.number().int().min(1).max(100).default(50),
        }),
        response: { 200: answer },
      },
    },
    async ({ query: { q, aircraft, kind, from, to, before, limit } }, reply) => {
      const { found, more, unread } = await writings.find({
        words: q,
        aircraft: aircraft ?? null,
        kind: kind ?? null,
        from: from === undefined ? null : Date.parse(from),
        to: to === undefined ? null : Date.parse(to) + DAY_MS,
        before: before === undefined ? null : positionOf(before),
        limit,
      });
      const last = found.at(-1);
      if (more && last) linkNext(reply, limit, [last.at, `${last.session}.${last.seq}.${last.part}`]);
      return { found, next: more && last ? cursorOf(last) : null, unread };
    },
  );
};

const cursorOf = ({ at, session, seq, part }: Position): string => `${at}.${session}.${seq}.${part}`;

function positionOf(cursor: string): Position {
  const [, at, session = "", seq, part] = CURSOR.exec(cursor) ?? [];
  return { at: Number(at), session, seq: Number(seq), part: Number(part) };
}
