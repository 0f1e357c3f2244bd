import type { FastifyReply } from "fastify";
import { z } from "zod";

/** Most rows of a page, and the rows of one when a request names no limit. */
export const PAGE_ROWS = 200;

/**
 * The place of a row in its list, by its rank and then by its id. It must not change while the row is there: then a row
 * that stays is in exactly one of the pages, whatever is added and removed between them.
 */
export type Place = readonly [rank: number, id: string];

/** Every id in a place is of printable ASCII: a cursor with anything else may never reach a database. */
const CURSOR = /^(\d{1,15})\.([\x20-\x7e]{1,1500})$/;

/** A place as the address of the next page has it. */
export const cursorSchema = z
  .string()
  .regex(CURSOR, "must be from the address of the next page")
  .describe("Where the page before ended, from the address of the next page");

/** The filters of a list that comes a page at a time. */
export const pageSchema = z.strictObject({
  limit: z.coerce.number().int().min(1).max(PAGE_ROWS).default(PAGE_ROWS).describe("Most rows of a page"),
  before: cursorSchema.optional(),
});

/** Returns the place that a cursor names. The schema has judged it. */
export function placeOf(cursor: string): Place {
  const [, rank, id = ""] = CURSOR.exec(cursor) ?? [];
  return [Number(rank), id];
}

/** Adds the address of the page after `last`: the same request, as a header `Link` (RFC 8288). */
export function linkNext(reply: FastifyReply, limit: number, [rank, id]: Place): void {
  const { url } = reply.request;
  const path = url.split("?", 1)[0] ?? url;
  const query = new URLSearchParams({
    ...(reply.request.query as Record<string, string>),
    limit: String(limit),
    before: `${rank}.${id}`,
  });
  reply.header("link", `<${path}?${query}>; rel="next"`);
}

interface Order<Row> {
  of: (row: Row) => Place;
  newestFirst?: boolean;
}

/** Returns the page of a list that a request asks for, in the order of its places, and adds the address of the next one. */
export function pageOf<Row>(
  reply: FastifyReply,
  { limit, before }: z.output<typeof pageSchema>,
  all: readonly Row[],
  { of, newestFirst = false }: Order<Row>,
): Row[] {
  const turn = newestFirst ? -1 : 1;
  const inOrder = (a: Place, b: Place) => turn * (a[0] - b[0] || (a[1] < b[1] ? -1 : Number(a[1] > b[1])));
  const rows = all.map((row) => ({ row, place: of(row) }));
  const from = before === undefined ? null : placeOf(before);
  const after = from ? rows.filter(({ place }) => inOrder(place, from) > 0) : rows;
  const page = after.sort((a, b) => inOrder(a.place, b.place)).slice(0, limit);
  const last = page.at(-1);
  if (last && after.length > page.length) linkNext(reply, limit, last.place);
  return page.map(({ row }) => row);
}

/** Returns the place of a row in a list that is ordered by id alone. */
export const byId = ({ id }: { id: string }): Place => [0, id];
