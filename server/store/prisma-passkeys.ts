import type { PrismaClient } from "../../prisma/generated/sqlite/client.ts";
import type { PasskeyModel } from "../../prisma/generated/sqlite/models.ts";
import type { PasskeyRecord, PasskeyStore } from "./passkeys.ts";

/** Passkeys in the database, through Prisma, in single statements. */
export class PrismaPasskeys implements PasskeyStore {
  readonly #db: PrismaClient;

  constructor(db: PrismaClient) {
    this.#db = db;
  }

  async of(personId: string): Promise<PasskeyRecord[]> {
    const rows = await this.#db.passkey.findMany({ where: { personId }, orderBy: { createdAt: "asc" } });
    return rows.map(toPasskey);
  }

  async one(id: string): Promise<PasskeyRecord | null> {
    const row = await this.#db.passkey.findUnique({ where: { id } });
    return row && toPasskey(row);
  }

  async add({ counter, createdAt, usedAt, ...passkey }: PasskeyRecord): Promise<void> {
    const times = { createdAt: BigInt(createdAt), usedAt: usedAt === null ? null : BigInt(usedAt) };
    await this.#db.passkey.createMany({ data: [{ ...passkey, ...times, counter: BigInt(counter) }] });
  }

  async used(id: string, counter: number, at: number): Promise<boolean> {
    const lower = counter > 0 ? { counter: { lt: BigInt(counter) } } : {};
    const changed = await this.#db.passkey.updateMany({
      where: { id, ...lower },
      data: { counter: BigInt(counter), usedAt: BigInt(at) },
    });
    return changed.count === 1;
  }

  async remove(id: string, personId: string): Promise<boolean> {
    return (await this.#db.passkey.deleteMany({ where: { id, personId } })).count === 1;
  }
}

function toPasskey(row: PasskeyModel): PasskeyRecord {
  return {
    ...row,
    counter: Number(row.counter),
    createdAt: Number(row.createdAt),
    usedAt: row.usedAt === null ? null : Number(row.usedAt),
  };
}
