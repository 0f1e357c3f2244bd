import type { SignInModel } from "../../prisma/generated/sqlite/models.ts";
import type { SignInRecord } from "./sign-in.ts";

/** Returns the row as a sign-in record. */
export function toSignIn(row: SignInModel): SignInRecord {
  return {
    id: row.id,
    personId: row.personId,
    deviceId: row.deviceId,
    deviceName: row.deviceName,
    tokenHash: row.tokenHash,
    thumbprint: row.thumbprint,
    createdAt: Number(row.createdAt),
    expiresAt: Number(row.expiresAt),
    usedAt: Number(row.usedAt),
    revokedAt: row.revokedAt === null ? null : Number(row.revokedAt),
  };
}
