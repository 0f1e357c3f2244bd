import type { IndexedHead, Moved } from "../moves.ts";

const XID_BITS = 32;

/** Returns the rows of a statement. */
type Select = <R extends object>(text: string, values: readonly unknown[]) => Promise<R[]>;

/**
 * Returns the heads that moved since a mark. Several servers write, so the database itself tells. A mark is the oldest
 * transaction that was under way: whatever is committed after it was written by that one or a later one. The numbers in
 * rows have 32 bits, so a mark of another round of them counts as none.
 */
export async function movedSince(select: Select, mark: string | null): Promise<Moved> {
  const [now] = await select<{ mark: string }>(
    `SELECT pg_snapshot_xmin(pg_current_snapshot())::text AS "mark"`,
    [],
  );
  const next = BigInt(now?.mark ?? 0);
  const since = mark === null ? null : BigInt(mark);
  const all = since === null || roundOf(since) !== roundOf(next);
  const heads = await select<IndexedHead>(
    `SELECT "id", "headSeq", "aircraft", "stage" FROM "Session" ${all ? "" : `WHERE "xmin"::text::bigint >= $1`}`,
    all ? [] : [String(BigInt.asUintN(XID_BITS, since))],
  );
  return { all, heads, gone: [], mark: String(next) };
}

const roundOf = (transaction: bigint): bigint => transaction >> BigInt(XID_BITS);
