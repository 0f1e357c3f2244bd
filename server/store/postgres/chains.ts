import type pg from "pg";
import { type ChainHead, type ChainLine, type Chains, ChainWalk, PAGE } from "../chains.ts";

/** SQLSTATE query_canceled: a statement took longer than it may. */
const CANCELLED = "57014";

/**
 * Follows the chain of every session in PostgreSQL, a page at a time, in the transaction the client is in: one in which
 * every statement sees the same (REPEATABLE READ), for servers that run go on appending meanwhile.
 * @param withinMs how long at most, milliseconds; the first page is followed all the same when it comes in time
 */
export async function chainsOnPostgres(
  client: pg.ClientBase,
  withinMs: number,
  page = PAGE,
): Promise<Chains> {
  const until = performance.now() + withinMs;
  const heads = await client.query<ChainHead>(`SELECT "id", "code", "headSeq", "headHash" FROM "Session"`);
  const walk = new ChainWalk(heads.rows);
  // The first page soon and the others in order, not the whole table sorted before any.
  await client.query("SET LOCAL cursor_tuple_fraction = 0.001");
  await client.query(`SET LOCAL statement_timeout = ${Math.max(1, Math.ceil(withinMs))}`);
  try {
    await client.query(
      `DECLARE "lines" NO SCROLL CURSOR FOR
       SELECT "session", "seq", "body", "hash" FROM "Event" ORDER BY "session", "seq"`,
    );
    for (;;) {
      const { rows } = await client.query<ChainLine>(`FETCH ${page} FROM "lines"`);
      for (const line of rows) walk.take(line);
      if (rows.length < page) return walk.end(false);
      if (performance.now() >= until) return walk.end(true);
    }
  } catch (error) {
    if ((error as { code?: unknown }).code === CANCELLED) return walk.end(true);
    throw error;
  }
}
