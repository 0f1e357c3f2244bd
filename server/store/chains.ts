import type Database from "better-sqlite3";
import { firstBroken } from "../../shared/evidence/chain.ts";
import { sha256 } from "../sha256.ts";
import type { StoredEvent } from "./events.ts";

/** What following every session's chain found. */
export interface Chains {
  sessions: number;
  events: number;
  /** Code of each session whose record does not hold, and the number of the first event that does not follow. */
  broken: { code: string; seq: number }[];
}

type Head = { id: string; code: string; headSeq: number; headHash: string };

/** Follows the chain of every session in a database file, from its first event to the head its row names. */
export function chains(db: Database.Database): Chains {
  const heads = db.prepare<[], Head>(`SELECT "id", "code", "headSeq", "headHash" FROM "Session"`).all();
  const lines = db.prepare<[string], StoredEvent>(
    `SELECT "seq", "body", "hash" FROM "Event" WHERE "session" = ? ORDER BY "seq"`,
  );
  const found: Chains = { sessions: heads.length, events: 0, broken: [] };
  for (const { id, code, headSeq, headHash } of heads) {
    let last = { seq: 0, hash: "" };
    const read = function* () {
      for (const line of lines.iterate(id)) {
        yield line;
        last = line;
      }
    };
    const broken = firstBroken(id, read(), sha256);
    found.events += last.seq;
    if (broken !== null) found.broken.push({ code, seq: broken });
    else if (last.seq !== headSeq || last.hash !== headHash) found.broken.push({ code, seq: last.seq + 1 });
  }
  return found;
}
