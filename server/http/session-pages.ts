import type { FastifyReply } from "fastify";
import { z } from "zod";
import type { SessionRow } from "../store/events.ts";
import { linkNext, PAGE_ROWS, pageSchema, placeOf } from "./pages.ts";

/** The filters of a list of sessions, which has another order without them. */
export const newestSchema = z.strictObject({
  limit: pageSchema.shape.limit.removeDefault().optional(),
  before: pageSchema.shape.before,
});

export const NEWEST_FIRST =
  "With `limit` or `before` they come newest first by their plan, open and over alike, a page at a time.";

/** Returns the page that a request asks for, and adds the address of the next one; null when it asks for no page. */
export async function newestPage(
  reply: FastifyReply,
  { limit, before }: z.output<typeof newestSchema>,
  read: (most: number, before?: Pick<SessionRow, "createdAt" | "id">) => Promise<SessionRow[]>,
): Promise<SessionRow[] | null> {
  if (limit === undefined && before === undefined) return null;
  const most = limit ?? PAGE_ROWS;
  const [createdAt, id] = before === undefined ? [] : placeOf(before);
  const rows = await read(most + 1, createdAt === undefined ? undefined : { createdAt, id: id ?? "" });
  const page = rows.slice(0, most);
  const last = page.at(-1);
  if (last && rows.length > most) linkNext(reply, most, [last.createdAt, last.id]);
  return page;
}
