import type Database from "better-sqlite3";
import { type ChainHead, type ChainLine, type Chains, ChainWalk, PAGE } from "./chains.ts";

/**
 * Checks the hash chain of every session in a database file.
 * @param late returns true when it is time to stop
 */
export function chainsOnFile(db: Database.Database, late: () => boolean): Chains {
  // Read in one transaction, because a running server goes on appending.
  return db.transaction(() => {
    const heads = db.prepare<[], ChainHead>(`SELECT "id", "code", "headSeq", "headHash" FROM "Session"`);
    const walk = new ChainWalk(heads.all());
    let n = 0;
    const lines = db.prepare<[], ChainLine>(
      `SELECT "session", "seq", "body", "hash" FROM "Event" ORDER BY "session", "seq"`,
    );
    for (const line of lines.iterate()) {
      if (n > 0 && n % PAGE === 0 && late()) return walk.end(true);
      n += 1;
      walk.take(line);
    }
    return walk.end(false);
  })();
}
