import type { PrismaClient } from "../../prisma/generated/sqlite/client.ts";
import type { AircraftTypeModel } from "../../prisma/generated/sqlite/models.ts";
import { type Seal, type StoredType, sealIn } from "./stored-type.ts";

/**
 * Returns every version as it is stored. No order is asked for, so the database reads the rows themselves and not an
 * index that may differ from them.
 */
export async function storedTypes(db: PrismaClient): Promise<StoredType[]> {
  const rows = await db.aircraftType.findMany();
  return rows.filter((row) => row.status !== "discarded" || row.seal !== null).map(toStored);
}

export async function sealType(db: PrismaClient, id: string, version: number, seal: Seal): Promise<void> {
  await db.aircraftType.updateMany({
    where: { id, version, status: "approved", seal: null },
    data: { seal: seal.note, sealKey: seal.key },
  });
}

function toStored({ seal, sealKey, ...row }: AircraftTypeModel): StoredType {
  return {
    ...row,
    approvedAt: row.approvedAt === null ? null : Number(row.approvedAt),
    createdAt: Number(row.createdAt),
    changedAt: Number(row.changedAt),
    seal: sealIn(seal, sealKey),
  };
}
