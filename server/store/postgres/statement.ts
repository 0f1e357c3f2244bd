import type { QueryConfig } from "pg";
import type { Append, SessionRow, StoredEvent } from "../events.ts";

/** Columns of a session's row and of an event, with their PostgreSQL types. */
const ROW = {
  id: "text",
  code: "text",
  planCommand: "text",
  aircraft: "text",
  typeId: "text",
  typeVersion: "int",
  typeName: "text",
  place: "text",
  stage: "text",
  needs: "int",
  createdAt: "bigint",
  closedAt: "bigint",
  headSeq: "int",
  headHash: "text",
  headAt: "bigint",
} as const satisfies Record<keyof SessionRow, string>;

const EVENT = {
  seq: "int",
  at: "bigint",
  type: "text",
  command: "text",
  body: "text",
  hash: "text",
} as const satisfies Record<keyof StoredEvent, string>;

const CHANGING = ["stage", "needs", "closedAt", "headSeq", "headHash", "headAt"] as const;

const rowKeys = Object.keys(ROW) as (keyof SessionRow)[];
const eventKeys = Object.keys(EVENT) as (keyof StoredEvent)[];
const list = (keys: readonly string[]) => keys.map((k) => `"${k}"`).join(", ");
const arrays = (types: readonly string[], first: number) =>
  types.map((type, i) => `$${first + i}::${type}[]`).join(", ");

export const ROW_COLUMNS = list(rowKeys);
export const EVENT_COLUMNS = list(eventKeys);

const WANTED = ["int", ...Object.values(ROW)];
const EVENTS = ["text", ...Object.values(EVENT)];

/**
 * Appends a whole group in one statement: one transaction, one round trip, one flush. Rows are locked in the order of
 * their ids, so that two servers cannot deadlock. A session that is not at the expected number is left unchanged,
 * with its events. Returns the ids of the sessions that were appended to.
 */
const TEXT = `
WITH wanted AS (
  SELECT * FROM unnest(${arrays(WANTED, 1)}) AS w("expected", ${ROW_COLUMNS})
), locked AS (
  SELECT "id", "headSeq" FROM "Session" WHERE "id" = ANY($2::text[]) ORDER BY "id" FOR UPDATE
), moved AS (
  UPDATE "Session" s SET ${CHANGING.map((c) => `"${c}" = w."${c}"`).join(", ")}
  FROM wanted w JOIN locked l USING ("id")
  WHERE s."id" = w."id" AND w."expected" > 0 AND l."headSeq" = w."expected"
  RETURNING s."id"
), begun AS (
  INSERT INTO "Session" (${ROW_COLUMNS}) SELECT ${ROW_COLUMNS} FROM wanted WHERE "expected" = 0
  ON CONFLICT DO NOTHING RETURNING "id"
), kept AS (
  SELECT "id" FROM moved UNION ALL SELECT "id" FROM begun
), written AS (
  INSERT INTO "Event" ("session", ${EVENT_COLUMNS})
  SELECT e.* FROM unnest(${arrays(EVENTS, WANTED.length + 1)}) AS e("session", ${EVENT_COLUMNS})
  WHERE e."session" IN (SELECT "id" FROM kept)
)
SELECT "id" FROM kept`;

/**
 * Returns the statement that stores these appends.
 * @param group at most one append per session
 */
export function appendStatement(group: readonly Append[]): QueryConfig {
  const events = group.flatMap(({ row, events }) => events.map((event) => ({ session: row.id, event })));
  return {
    name: "append",
    text: TEXT,
    values: [
      group.map((a) => a.expected),
      ...rowKeys.map((key) => group.map(({ row }) => row[key])),
      events.map(({ session }) => session),
      ...eventKeys.map((key) => events.map(({ event }) => event[key])),
    ],
  };
}
