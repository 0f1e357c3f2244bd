import type { PrismaClient } from "../../prisma/generated/sqlite/client.ts";
import type { NameRecord, PersonalStore } from "./personal.ts";
import { toSignIn } from "./prisma-sign-in.ts";

/** Sign-ins per statement. */
const LOT = 100;

export class PrismaPersonal implements PersonalStore {
  readonly #db: PrismaClient;

  constructor(db: PrismaClient) {
    this.#db = db;
  }

  names(): Promise<NameRecord[]> {
    return this.#db.personName.findMany({ select: { personId: true, name: true, salt: true } });
  }

  async addNames(names: readonly NameRecord[]): Promise<void> {
    if (names.length > 0) await this.#db.personName.createMany({ data: [...names] });
  }

  async signIns(personId: string) {
    const rows = await this.#db.signIn.findMany({ where: { personId }, orderBy: { createdAt: "asc" } });
    return rows.map(toSignIn);
  }

  async forgetSignIns(ids: readonly string[]): Promise<void> {
    // SQLite limits the values per statement.
    for (let i = 0; i < ids.length; i += LOT)
      await this.#db.signIn.deleteMany({ where: { id: { in: ids.slice(i, i + LOT) } } });
  }

  async erase(personId: string, lockouts: readonly string[]): Promise<void> {
    // Single statements, names first: after an interruption the names are already unreadable, and the work can be
    // repeated.
    await this.#db.personName.deleteMany({ where: { personId } });
    await this.#db.signIn.deleteMany({ where: { personId } });
    await this.#db.currencyDate.deleteMany({ where: { personId } });
    await this.#db.lastStart.deleteMany({ where: { personId } });
    await this.#db.passkey.deleteMany({ where: { personId } });
    await this.#db.lockout.deleteMany({ where: { key: { in: [...lockouts] } } });
    await this.#db.person.deleteMany({ where: { id: personId } });
  }
}
