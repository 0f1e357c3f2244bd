import type pg from "pg";
import { type ChainHead, type ChainLine, type Chains, ChainWalk, PAGE } from "../chains.ts";

/** SQLSTATE query_canceled: a statement exceeded its time limit. */
const CANCELLED = "57014";

/**
 * Checks the hash chain of every session in PostgreSQL, page by page. Needs a REPEATABLE READ transaction, because
 * running servers go on appending.
 * @param withinMs time limit, milliseconds; the first page is checked in any case if it arrives in time
 */
export async function chainsOnPostgres(
  client: pg.ClientBase,
  withinMs: number,
  page = PAGE,
): Promise<Chains> {
  const until = performance.now() + withinMs;
  const heads = await client.query<ChainHead>(`SELECT "id", "code", "headSeq", "headHash" FROM "Session"`);
  const walk = new ChainWalk(heads.rows);
  // Plan for a fast first page, in index order, instead of a sort of the whole table.
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
