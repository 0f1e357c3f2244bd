import type { FastifyReply } from "fastify";
import { onceFor } from "../../shared/derived/onceFor.ts";
import type { StartRow } from "../../shared/history/row.ts";

/** A row is replaced when it changes, so its text is made once while it is in memory. */
const textOf = onceFor((row: StartRow) => JSON.stringify(row));

/** Returns rows as JSON. */
export function rowsText(rows: readonly StartRow[]): string {
  return `[${rows.map(textOf).join()}]`;
}

/**
 * Sends text that is JSON already. Rows have passed their schema when they were made or read: to write years of them
 * anew for each answer takes longer than all else.
 */
export function jsonReply(reply: FastifyReply, text: string): FastifyReply {
  return reply.header("content-type", "application/json; charset=utf-8").serializer(String).send(text);
}
