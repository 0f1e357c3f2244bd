import type { PrismaClient } from "../../prisma/generated/sqlite/client.ts";
import type { DeviceModel } from "../../prisma/generated/sqlite/models.ts";
import type { DeviceRecord, DeviceStore, EnrolmentCode } from "./devices.ts";

/** Devices in the database, through Prisma, in single statements. */
export class PrismaDevices implements DeviceStore {
  readonly #db: PrismaClient;

  constructor(db: PrismaClient) {
    this.#db = db;
  }

  async all(): Promise<DeviceRecord[]> {
    return (await this.#db.device.findMany({ orderBy: { enrolledAt: "desc" } })).map(toDevice);
  }

  async one(id: string): Promise<DeviceRecord | null> {
    const row = await this.#db.device.findUnique({ where: { id } });
    return row && toDevice(row);
  }

  async byThumbprint(thumbprint: string): Promise<DeviceRecord | null> {
    const row = await this.#db.device.findUnique({ where: { thumbprint } });
    return row && toDevice(row);
  }

  async add(device: DeviceRecord): Promise<void> {
    const { enrolledAt, revokedAt } = device;
    await this.#db.device.createMany({
      data: [
        {
          ...device,
          enrolledAt: BigInt(enrolledAt),
          revokedAt: revokedAt === null ? null : BigInt(revokedAt),
        },
      ],
    });
  }

  async revoke(id: string, by: string, at: number): Promise<void> {
    await this.#db.device.updateMany({
      where: { id, revokedAt: null },
      data: { revokedBy: by, revokedAt: BigInt(at) },
    });
  }

  async addCode(code: EnrolmentCode): Promise<void> {
    await this.#db.enrolmentCode.createMany({ data: [{ ...code, expiresAt: BigInt(code.expiresAt) }] });
  }

  async takeCode(codeHash: string, now: number): Promise<EnrolmentCode | null> {
    // The update decides: when two requests use the code at once, only one changes a row.
    const used = await this.#db.enrolmentCode.updateMany({
      where: { codeHash, usedAt: null, expiresAt: { gt: BigInt(now) } },
      data: { usedAt: BigInt(now) },
    });
    if (used.count !== 1) return null;
    const row = await this.#db.enrolmentCode.findUnique({ where: { codeHash } });
    return (
      row && {
        codeHash,
        deviceName: row.deviceName,
        issuedBy: row.issuedBy,
        expiresAt: Number(row.expiresAt),
      }
    );
  }

  async withdrawCodes(issuedBy: string): Promise<void> {
    await this.#db.enrolmentCode.deleteMany({ where: { issuedBy, usedAt: null } });
  }

  async forgetCodes(before: number): Promise<void> {
    await this.#db.enrolmentCode.deleteMany({ where: { expiresAt: { lt: BigInt(before) } } });
  }
}

function toDevice(row: DeviceModel): DeviceRecord {
  return {
    ...row,
    enrolledAt: Number(row.enrolledAt),
    revokedAt: row.revokedAt === null ? null : Number(row.revokedAt),
  };
}
