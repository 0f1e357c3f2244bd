import type pg from "pg";
import type { ExaminedTypes } from "../../doctor/types.ts";
import { type Guard, missingOnPostgres, POSTGRES_TRIGGERS } from "../guards.ts";
import { type StoredType, sealIn } from "../stored-type.ts";

/** The driver gives BIGINT as text. */
type Big = "approvedAt" | "createdAt" | "changedAt";
type Row = Omit<StoredType, "seal" | Big> &
  Record<Exclude<Big, "approvedAt">, string> & {
    approvedAt: string | null;
    seal: string | null;
    sealKey: string | null;
  };

/** Returns the aircraft types of a PostgreSQL database and the guards it lacks, without changing it. */
export async function typesOnPostgres(client: pg.Client): Promise<ExaminedTypes> {
  try {
    const { rows } = await client.query<Row>(
      `SELECT * FROM "AircraftType" WHERE "status" <> 'discarded' OR "seal" IS NOT NULL`,
    );
    const triggers = await client.query<Guard>(POSTGRES_TRIGGERS);
    return { rows: rows.map(toStored), missing: missingOnPostgres(triggers.rows) };
  } catch (error) {
    // Class XX of SQLSTATE is PostgreSQL's own failure, damaged pages among them.
    const damaged = String((error as { code?: unknown }).code).startsWith("XX");
    return { unreadable: (error as Error).message, damaged };
  }
}

function toStored({ seal, sealKey, approvedAt, createdAt, changedAt, ...row }: Row): StoredType {
  return {
    ...row,
    approvedAt: approvedAt === null ? null : Number(approvedAt),
    createdAt: Number(createdAt),
    changedAt: Number(changedAt),
    seal: sealIn(seal, sealKey),
  };
}
