import type { FastifyReply } from "fastify";
import { z } from "zod";
import { ProblemError } from "./problem.ts";

/** The revision as an entity tag: a change or approval applies only to the revision that was read. */
export const ifMatch = z.object({ "if-match": z.string().optional() });

/**
 * Returns the revision that If-Match names.
 * @throws ProblemError when it does not name exactly one
 */
export function revisionOf(header: string | undefined): number {
  const revision = /^"(0|[1-9]\d{0,8})"$/.exec(header ?? "")?.[1];
  if (revision === undefined) {
    const detail = "Send If-Match with the entity tag of what you read";
    throw new ProblemError("revisionNeeded", detail);
  }
  return Number(revision);
}

/** Returns the reply with the revision as its entity tag. */
export function tagged<R extends FastifyReply>(reply: R, { revision }: { revision: number }): R {
  return reply.header("etag", `"${revision}"`) as R;
}
