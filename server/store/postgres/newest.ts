import { REHEARSAL_ID } from "../../../shared/protocol/rehearsal.ts";
import { RECORD_STAGE, type SessionRow } from "../events.ts";

export const IS_SESSION = `"stage" <> '${RECORD_STAGE}'`;
/** The id alone tells, so that no list can mix them up. */
const IS_REHEARSAL = `"id" LIKE '${REHEARSAL_ID}%'`;
export const IS_START = `${IS_SESSION} AND NOT (${IS_REHEARSAL})`;
const IS = { start: IS_START, rehearsal: IS_REHEARSAL };

/** Returns the end of a statement that reads sessions newest first, after `before` in this order, and its values. */
export function newest(
  which: keyof typeof IS,
  limit: number,
  before?: Pick<SessionRow, "createdAt" | "id">,
): [string, unknown[]] {
  const order = `ORDER BY "createdAt" DESC, "id" COLLATE "C" DESC LIMIT $1`;
  if (!before) return [`WHERE ${IS[which]} ${order}`, [limit]];
  return [
    `WHERE ${IS[which]} AND ("createdAt" < $2 OR ("createdAt" = $2 AND "id" COLLATE "C" < $3)) ${order}`,
    [limit, before.createdAt, before.id],
  ];
}
