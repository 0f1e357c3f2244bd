import type Database from "better-sqlite3";
import type { ExaminedTypes } from "../doctor/types.ts";
import { type Guard, missingOnSqlite, SQLITE_TRIGGERS } from "./guards.ts";
import { isDamage } from "./sqlite-damage.ts";
import { type StoredType, sealIn } from "./stored-type.ts";

interface Row extends Omit<StoredType, "seal"> {
  seal: string | null;
  sealKey: string | null;
}

/** Returns the aircraft types of a SQLite database and the guards it lacks, without changing it. */
export function typesOnFile(db: Database.Database): ExaminedTypes {
  try {
    // NOT INDEXED: the rows themselves are read, not an index that may differ from them.
    const rows = db
      .prepare<[], Row>(
        `SELECT "id", "version", "name", "body", "status", "author", "authors", "approvedBy", "approvedById", "approvedAt",
           "revision", "createdAt", "changedAt", "seal", "sealKey"
         FROM "AircraftType" NOT INDEXED WHERE "status" <> 'discarded' OR "seal" IS NOT NULL`,
      )
      .all();
    return {
      rows: rows.map(({ seal, sealKey, ...row }) => ({ ...row, seal: sealIn(seal, sealKey) })),
      missing: missingOnSqlite(db.prepare<[], Guard>(SQLITE_TRIGGERS).all()),
    };
  } catch (error) {
    return { unreadable: (error as Error).message, damaged: isDamage(error) };
  }
}
