import type { FastifyReply } from "fastify";

/** Sends a table as a file. Its name is made of plain characters. */
export function csvReply(reply: FastifyReply, name: string, text: string): FastifyReply {
  const safe = name.replace(/[^\w.-]/g, "_");
  return reply
    .header("content-type", "text/csv; charset=utf-8; header=present")
    .header("content-disposition", `attachment; filename="chockside-${safe}.csv"`)
    .header("cache-control", "no-store")
    .serializer(String)
    .send(text);
}
