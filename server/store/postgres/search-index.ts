import pg from "pg";
import {
  INDEX_FORM,
  type IndexEntry,
  type KeptStarts,
  type SearchIndex,
  type Term,
  type Wanted,
} from "../search-index.ts";
import { type Place, settings } from "./link.ts";
import { asRefusal, nameOf } from "./open.ts";

/** Separates this lock from other advisory locks. */
const LOCK = 4_381;
const CONNECTIONS = 2;

/** The index stands in a schema of its own: an operator can drop it whole. */
const TABLES = `
DROP SCHEMA IF EXISTS search CASCADE;
CREATE SCHEMA search;
CREATE TABLE search."Form" ("form" int NOT NULL);
INSERT INTO search."Form" VALUES (${INDEX_FORM});
CREATE TABLE search."Head" ("session" text COLLATE "C" PRIMARY KEY, "head" int NOT NULL);
CREATE TABLE search."Entry" (
  "at" bigint NOT NULL, "session" text COLLATE "C" NOT NULL, "seq" int NOT NULL, "part" int NOT NULL,
  "aircraft" text NOT NULL, "kind" text NOT NULL, "tokens" text[] NOT NULL, "words" tsvector NOT NULL,
  "body" text NOT NULL, PRIMARY KEY ("session", "seq", "part")
);
CREATE INDEX ON search."Entry" USING gin ("words");
CREATE INDEX ON search."Entry" ("at", "session", "seq", "part");
CREATE INDEX ON search."Entry" ("kind", "at");
CREATE INDEX ON search."Entry" ("aircraft", "at");
CREATE TABLE search."Starts" (
  "session" text COLLATE "C" PRIMARY KEY, "headHash" text NOT NULL, "body" text NOT NULL
);
`;

const COLUMNS = `"at", "session", "seq", "part", "aircraft", "kind", "tokens", "body"`;

/** The search index in PostgreSQL's text search, shared by every server on the database. */
export class PostgresSearchIndex implements SearchIndex {
  readonly #pool: pg.Pool;

  private constructor(place: Place) {
    this.#pool = new pg.Pool({ ...settings(place, "search"), max: CONNECTIONS, query_timeout: 10_000 });
    this.#pool.on("error", () => {});
  }

  /**
   * Opens the index, and makes an empty one where there is none of this version.
   * @throws StartRefused
   */
  static async open(place: Place): Promise<PostgresSearchIndex> {
    const index = new PostgresSearchIndex(place);
    try {
      await index.#inOne(async (client) => {
        // One server at a time: two that start together would both make it.
        await client.query("SELECT pg_advisory_xact_lock($1)", [LOCK]);
        const there = await client.query(`SELECT to_regclass('search."Form"') AS "form"`);
        const form = there.rows[0]?.form && (await client.query(`SELECT "form" FROM search."Form"`));
        if (form?.rows?.[0]?.form !== INDEX_FORM) await client.query(TABLES);
      });
      return index;
    } catch (error) {
      await index.close();
      throw asRefusal(error, nameOf(place));
    }
  }

  async heads(ids?: readonly string[]): Promise<Map<string, number>> {
    const { rows } = await this.#pool.query<{ session: string; head: number }>(
      `SELECT * FROM search."Head" ${ids ? `WHERE "session" = ANY($1)` : ""}`,
      ids ? [ids] : [],
    );
    return new Map(rows.map(({ session, head }) => [session, head]));
  }

  async put(session: string, from: number, head: number, entries: readonly IndexEntry[]): Promise<void> {
    await this.#inOne(async (client) => {
      const moved =
        from === 0
          ? await client.query(`INSERT INTO search."Head" VALUES ($1, $2) ON CONFLICT DO NOTHING`, [
              session,
              head,
            ])
          : await client.query(`UPDATE search."Head" SET "head" = $2 WHERE "session" = $1 AND "head" = $3`, [
              ...[session, head, from],
            ]);
      if (moved.rowCount === 0) return;
      for (const { at, seq, part, aircraft, kind, tokens, body } of entries)
        await client.query(
          `INSERT INTO search."Entry" (${COLUMNS}, "words")
           VALUES ($1, $2, $3, $4, $5, $6, $7, $8, array_to_tsvector($7::text[]))`,
          [at, session, seq, part, aircraft, kind, tokens, body],
        );
    });
  }

  async forget(session: string): Promise<void> {
    await this.#inOne(async (client) => {
      await client.query(`DELETE FROM search."Head" WHERE "session" = $1`, [session]);
      await client.query(`DELETE FROM search."Entry" WHERE "session" = $1`, [session]);
      await client.query(`DELETE FROM search."Starts" WHERE "session" = $1`, [session]);
    });
  }

  async find({ terms, aircraft, kind, from, to, before, limit }: Wanted): Promise<IndexEntry[]> {
    const where: string[] = [];
    const values: unknown[] = [];
    const put = (value: unknown) => `$${values.push(value)}`;
    if (terms.length > 0) where.push(`"words" @@ ${put(terms.map(matching).join(" & "))}::tsquery`);
    if (aircraft !== null) where.push(`"aircraft" = ${put(aircraft)}`);
    if (kind !== null) where.push(`"kind" = ${put(kind)}`);
    if (from !== null) where.push(`"at" >= ${put(from)}`);
    if (to !== null) where.push(`"at" < ${put(to)}`);
    if (before !== null) {
      const place = [before.at, before.session, before.seq, before.part].map(put);
      where.push(`("at", "session", "seq", "part") < (${place.join(", ")})`);
    }
    const { rows } = await this.#pool.query<IndexEntry>(
      `SELECT ${COLUMNS} FROM search."Entry" ${where.length > 0 ? `WHERE ${where.join(" AND ")}` : ""}
       ORDER BY "at" DESC, "session" DESC, "seq" DESC, "part" DESC LIMIT ${put(limit)}`,
      values,
    );
    return rows;
  }

  async keepStarts({ session, headHash, body }: KeptStarts): Promise<void> {
    await this.#pool.query(
      `INSERT INTO search."Starts" VALUES ($1, $2, $3)
       ON CONFLICT ("session") DO UPDATE SET "headHash" = EXCLUDED."headHash", "body" = EXCLUDED."body"`,
      [session, headHash, body],
    );
  }

  async startsOf(sessions: readonly string[]): Promise<KeptStarts[]> {
    const { rows } = await this.#pool.query<KeptStarts>(
      `SELECT * FROM search."Starts" WHERE "session" = ANY($1)`,
      [sessions],
    );
    return rows;
  }

  async startHeads(ids?: readonly string[]): Promise<Map<string, string>> {
    const { rows } = await this.#pool.query<Omit<KeptStarts, "body">>(
      `SELECT "session", "headHash" FROM search."Starts" ${ids ? `WHERE "session" = ANY($1)` : ""}`,
      ids ? [ids] : [],
    );
    return new Map(rows.map(({ session, headHash }) => [session, headHash]));
  }

  async close(): Promise<void> {
    await this.#pool.end();
  }

  /** Runs work in one transaction. */
  async #inOne(work: (client: pg.PoolClient) => Promise<void>): Promise<void> {
    const client = await this.#pool.connect();
    let broken: Error | undefined;
    try {
      await client.query("BEGIN");
      await work(client);
      await client.query("COMMIT");
    } catch (error) {
      await client.query("ROLLBACK").catch((fault: Error) => {
        broken = fault;
      });
      throw error;
    } finally {
      client.release(broken);
    }
  }
}

/** Returns the term as a query. Tokens hold letters, digits and `_` only, so that nothing needs escaping. */
function matching({ prefix, or }: Term): string {
  return `(${[`'${prefix}':*`, ...or.map((token) => `'${token}'`)].join(" | ")})`;
}
