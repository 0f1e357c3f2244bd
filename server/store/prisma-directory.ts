import { PrismaBetterSqlite3 } from "@prisma/adapter-better-sqlite3";
import { z } from "zod";
import { PrismaClient } from "../../prisma/generated/sqlite/client.ts";
import type { AircraftTypeModel, PersonModel } from "../../prisma/generated/sqlite/models.ts";
import { canonical } from "../../shared/evidence/canonical.ts";
import { postSchema } from "../../shared/protocol/enums.ts";
import { type AircraftType, aircraftTypeSchema } from "../../shared/types/schema.ts";
import { StartRefused } from "../start-refused.ts";
import type {
  Directory,
  Lockout,
  Named,
  PeopleTaken,
  PersonRecord,
  TypeDraft,
  TypeSummary,
  TypeVersion,
} from "./directory.ts";
import { type Guard, missingOnSqlite, SQLITE_TRIGGERS, TYPES } from "./guards.ts";
import { PrismaCurrencies } from "./prisma-currencies.ts";
import { PrismaDevices } from "./prisma-devices.ts";
import { PrismaPasskeys } from "./prisma-passkeys.ts";
import { PrismaPersonal } from "./prisma-personal.ts";
import { PrismaPictures } from "./prisma-pictures.ts";
import { PrismaRegister } from "./prisma-register.ts";
import { toSignIn } from "./prisma-sign-in.ts";
import { sealType, storedTypes } from "./prisma-types.ts";
import type { SignInRecord } from "./sign-in.ts";
import type { Seal, StoredType } from "./stored-type.ts";
import { statusesOf } from "./type-status.ts";

const mayHoldSchema = z.array(postSchema);

/** Returns a person as the database keeps them. */
const personRow = (p: PersonRecord) => ({
  ...p,
  mayHold: JSON.stringify(p.mayHold),
  createdAt: BigInt(p.createdAt),
});
const authorsSchema = z.array(z.strictObject({ id: z.string(), name: z.string() }));

/** Sign-ins per statement. */
const LOT = 100;

export type Client = PrismaClient;

interface Turns {
  take<T>(keys: readonly string[], work: () => Promise<T>): Promise<T>;
  close(): Promise<void>;
}

type Guards = (db: Client) => Promise<string[]>;

type SaveUses = Directory["usedSignIns"];

/** A single server has the whole file, so nothing waits for a turn. */
const ALONE: Turns = { take: (_keys, work) => work(), async close() {} };

/**
 * The directory in the database, through Prisma. It uses single statements only: a transaction held across turns of
 * the event loop would deadlock with the evidence, which is written through another handle.
 */
export class PrismaDirectory implements Directory {
  readonly #db: Client;
  readonly #turns: Turns;
  readonly #guards: Guards;
  readonly #saveUses: SaveUses;
  readonly devices: PrismaDevices;
  readonly passkeys: PrismaPasskeys;
  readonly personal: PrismaPersonal;
  readonly register: PrismaRegister;
  readonly currencies: PrismaCurrencies;
  readonly pictures: PrismaPictures;

  /**
   * @param turns runs work in turn with other servers on the database
   * @param guards names the guards of approved versions that the database lacks
   * @param saveUses saves when sign-ins were last used, by default through Prisma
   */
  constructor(db: Client, turns: Turns, guards: Guards, saveUses?: SaveUses) {
    this.#db = db;
    this.#turns = turns;
    this.#guards = guards;
    this.#saveUses = saveUses ?? ((ids, at) => this.#updateUses(ids, at));
    this.devices = new PrismaDevices(db);
    this.passkeys = new PrismaPasskeys(db);
    this.personal = new PrismaPersonal(db);
    this.register = new PrismaRegister(db);
    this.currencies = new PrismaCurrencies(db);
    this.pictures = new PrismaPictures(db);
  }

  /**
   * @param file a database that `openDatabase` has migrated
   * @param saveUses saves when sign-ins were last used, on the same file
   */
  static async open(file: string, saveUses?: SaveUses): Promise<PrismaDirectory> {
    const db = new PrismaClient({
      adapter: new PrismaBetterSqlite3({ url: `file:${file}`, timeout: 2_000 }),
    });
    // The adapter's default in write-ahead mode is weaker; people added must survive a power cut too.
    await db.$executeRawUnsafe("PRAGMA synchronous = FULL");
    // SQLite overwrites deleted bytes: a picture that was removed for a reason must leave the file.
    await db.$queryRawUnsafe("PRAGMA secure_delete = ON");
    const [now] = await db.$queryRawUnsafe<{ synchronous: bigint | number }[]>("PRAGMA synchronous");
    if (Number(now?.synchronous) !== 2)
      throw new StartRefused(`${file} would not be flushed at every commit`);
    const guards: Guards = async (on) =>
      missingOnSqlite(await on.$queryRawUnsafe<Guard[]>(SQLITE_TRIGGERS), TYPES);
    return new PrismaDirectory(db, ALONE, guards, saveUses);
  }

  async close(): Promise<void> {
    await this.#turns.close();
    await this.#db.$disconnect();
  }

  inTurn<T>(keys: readonly string[], work: () => Promise<T>): Promise<T> {
    return this.#turns.take(keys, work);
  }

  async people(): Promise<PersonRecord[]> {
    return (await this.#db.person.findMany({ orderBy: { name: "asc" } })).map(toPerson);
  }

  async person(id: string): Promise<PersonRecord | null> {
    const row = await this.#db.person.findUnique({ where: { id } });
    return row && toPerson(row);
  }

  async personByHandle(handle: string): Promise<PersonRecord | null> {
    const row = await this.#db.person.findUnique({ where: { handle } });
    return row && toPerson(row);
  }

  async addPeople(people: readonly PersonRecord[]): Promise<void> {
    await this.#db.person.createMany({ data: people.map(personRow) });
  }

  async takePeople({ added, changed, dates }: PeopleTaken): Promise<void> {
    const { person, currencyDate } = this.#db;
    await this.#db.$transaction([
      person.createMany({ data: added.map(personRow) }),
      ...changed.map(({ id, name, mayHold }) =>
        person.updateMany({ where: { id }, data: { name, mayHold: JSON.stringify(mayHold) } }),
      ),
      currencyDate.deleteMany({ where: { personId: { in: dates.map((d) => d.personId) } } }),
      currencyDate.createMany({
        data: dates.flatMap(({ personId, dates: days }) =>
          Object.entries(days).map(([kind, until]) => ({ personId, kind, until })),
        ),
      }),
    ]);
  }

  async setActive(id: string, active: boolean): Promise<void> {
    await this.#db.person.updateMany({ where: { id }, data: { active } });
  }

  async setPerson(id: string, { name, mayHold }: Pick<PersonRecord, "name" | "mayHold">): Promise<void> {
    await this.#db.person.updateMany({ where: { id }, data: { name, mayHold: JSON.stringify(mayHold) } });
  }

  async setPin(id: string, pinHash: string): Promise<void> {
    await this.#db.person.updateMany({ where: { id }, data: { pinHash } });
  }

  async addSignIn(signIn: SignInRecord): Promise<void> {
    await this.#db.signIn.createMany({
      data: [
        {
          ...signIn,
          createdAt: BigInt(signIn.createdAt),
          expiresAt: BigInt(signIn.expiresAt),
          usedAt: BigInt(signIn.usedAt),
          revokedAt: signIn.revokedAt === null ? null : BigInt(signIn.revokedAt),
        },
      ],
    });
  }

  async signInByToken(tokenHash: string) {
    const row = await this.#db.signIn.findUnique({ where: { tokenHash }, include: { person: true } });
    return row && { signIn: toSignIn(row), person: toPerson(row.person) };
  }

  async revokeSignIn(id: string, at: number): Promise<void> {
    await this.#db.signIn.updateMany({ where: { id, revokedAt: null }, data: { revokedAt: BigInt(at) } });
  }

  async revokeSignIns(of: { personId: string } | { deviceId: string }, at: number): Promise<string[]> {
    const standing = await this.#db.signIn.findMany({
      where: { ...of, revokedAt: null },
      select: { id: true },
    });
    // This also revokes sign-ins added between the two statements; `SignIns` checks again after adding one.
    await this.#db.signIn.updateMany({ where: { ...of, revokedAt: null }, data: { revokedAt: BigInt(at) } });
    return standing.map((s) => s.id);
  }

  usedSignIns(ids: readonly string[], at: number): Promise<void> {
    return this.#saveUses(ids, at);
  }

  async #updateUses(ids: readonly string[], at: number): Promise<void> {
    for (const some of inLots(ids))
      await this.#db.signIn.updateMany({ where: { id: { in: some } }, data: { usedAt: BigInt(at) } });
  }

  async standing(ids: readonly string[], now: number, usedAfter: number): Promise<Set<string>> {
    const standing = new Set<string>();
    for (const some of inLots(ids)) {
      const rows = await this.#db.signIn.findMany({
        where: {
          id: { in: some },
          revokedAt: null,
          expiresAt: { gt: BigInt(now) },
          usedAt: { gt: BigInt(usedAfter) },
          person: { is: { active: true } },
        },
        select: { id: true },
      });
      for (const row of rows) standing.add(row.id);
    }
    return standing;
  }

  async peopleOn(device: string, now: number, usedAfter: number): Promise<Set<string>> {
    const rows = await this.#db.signIn.findMany({
      where: {
        deviceId: device,
        revokedAt: null,
        expiresAt: { gt: BigInt(now) },
        usedAt: { gt: BigInt(usedAfter) },
        person: { is: { active: true } },
      },
      select: { personId: true },
    });
    return new Set(rows.map((row) => row.personId));
  }

  async takeOnce(key: string, until: number): Promise<boolean> {
    try {
      await this.#db.taken.createMany({ data: [{ key, until: BigInt(until) }] });
      return true;
    } catch (error) {
      if ((error as { code?: string }).code === "P2002") return false;
      throw error;
    }
  }

  async forgetTaken(now: number): Promise<void> {
    await this.#db.taken.deleteMany({ where: { until: { lt: BigInt(now) } } });
  }

  async lockout(key: string): Promise<Lockout | null> {
    const row = await this.#db.lockout.findUnique({ where: { key } });
    if (!row) return null;
    const { failures, lockedUntil, updatedAt } = row;
    return {
      key,
      failures,
      lockedUntil: lockedUntil === null ? null : Number(lockedUntil),
      updatedAt: Number(updatedAt),
    };
  }

  async putLockout({ key, failures, lockedUntil, updatedAt }: Lockout): Promise<void> {
    const data = {
      failures,
      lockedUntil: lockedUntil === null ? null : BigInt(lockedUntil),
      updatedAt: BigInt(updatedAt),
    };
    const changed = await this.#db.lockout.updateMany({ where: { key }, data });
    if (changed.count === 0) await this.#db.lockout.createMany({ data: [{ key, ...data }] });
  }

  async forgetLockouts(before: number): Promise<void> {
    await this.#db.lockout.deleteMany({ where: { updatedAt: { lt: BigInt(before) } } });
  }

  async types(): Promise<TypeSummary[]> {
    const rows = await this.#db.aircraftType.findMany({
      where: { status: { not: "discarded" } },
      orderBy: [{ id: "asc" }, { version: "asc" }],
      omit: { body: true },
    });
    const statuses = statusesOf(rows);
    return rows.map((row, i) => toSummary(row, statuses[i] ?? "draft"));
  }

  async type(id: string, version: number): Promise<TypeVersion | null> {
    const row = await this.#db.aircraftType.findUnique({ where: { id_version: { id, version } } });
    if (!row || row.status === "discarded") return null;
    const of = await this.#db.aircraftType.findMany({
      where: { id },
      select: { id: true, version: true, status: true },
    });
    const status = statusesOf(of)[of.findIndex((t) => t.version === version)] ?? "draft";
    return {
      ...toSummary(row, status),
      type: aircraftTypeSchema.parse(JSON.parse(row.body)),
      authors: authorsSchema.parse(JSON.parse(row.authors)),
      revision: row.revision,
    };
  }

  async addTypes(types: readonly AircraftType[], now: number): Promise<void> {
    await this.#db.aircraftType.createMany({
      data: types.map((type) => ({
        ...newRow({ type, authors: [] }, now),
        ...(type.approvedBy === null
          ? {}
          : { status: "approved", approvedBy: type.approvedBy, approvedAt: BigInt(now) }),
      })),
    });
  }

  async addDraft(draft: TypeDraft, now: number): Promise<boolean> {
    try {
      await this.#db.aircraftType.createMany({ data: [newRow(draft, now)] });
      return true;
    } catch (error) {
      // Another request created this version first.
      if ((error as { code?: string }).code === "P2002") return false;
      throw error;
    }
  }

  async changeDraft({ type, authors }: TypeDraft, revision: number, now: number): Promise<boolean> {
    const changed = await this.#db.aircraftType.updateMany({
      where: { id: type.id, version: type.version, status: "draft", revision },
      data: { ...written(type, now), authors: JSON.stringify(authors), revision: revision + 1 },
    });
    return changed.count === 1;
  }

  async discardDraft(id: string, version: number, revision: number, now: number): Promise<boolean> {
    const changed = await this.#db.aircraftType.updateMany({
      where: { id, version, status: "draft", revision },
      data: { status: "discarded", changedAt: BigInt(now), revision: revision + 1 },
    });
    return changed.count === 1;
  }

  async approveType(
    type: AircraftType,
    by: Named,
    revision: number,
    now: number,
    seal: Seal,
  ): Promise<boolean> {
    const changed = await this.#db.aircraftType.updateMany({
      where: { id: type.id, version: type.version, status: "draft", revision },
      data: {
        ...written(type, now),
        status: "approved",
        approvedBy: by.name,
        approvedById: by.id,
        approvedAt: BigInt(now),
        revision: revision + 1,
        seal: seal.note,
        sealKey: seal.key,
      },
    });
    return changed.count === 1;
  }

  storedTypes(): Promise<StoredType[]> {
    return storedTypes(this.#db);
  }

  sealType(id: string, version: number, seal: Seal): Promise<void> {
    return sealType(this.#db, id, version, seal);
  }

  missingTypeGuards(): Promise<string[]> {
    return this.#guards(this.#db);
  }
}

function written(type: AircraftType, now: number) {
  return { name: type.name, author: type.author, body: canonical(type), changedAt: BigInt(now) };
}

function newRow({ type, authors }: TypeDraft, now: number) {
  return {
    ...written(type, now),
    id: type.id,
    version: type.version,
    status: "draft",
    authors: JSON.stringify(authors),
    revision: 1,
    createdAt: BigInt(now),
  };
}

function toSummary(row: Omit<AircraftTypeModel, "body">, status: TypeSummary["status"]): TypeSummary {
  const { id, version, name, author, approvedBy } = row;
  const approvedAt = row.approvedAt === null ? null : Number(row.approvedAt);
  return { id, version, name, status, author, approvedBy, approvedAt, changedAt: Number(row.changedAt) };
}

function toPerson(row: PersonModel): PersonRecord {
  return {
    ...row,
    mayHold: mayHoldSchema.parse(JSON.parse(row.mayHold)),
    createdAt: Number(row.createdAt),
  };
}

/** SQLite limits the values per statement, and a long statement delays commands. */
function inLots(ids: readonly string[]): string[][] {
  const lots: string[][] = [];
  for (let i = 0; i < ids.length; i += LOT) lots.push(ids.slice(i, i + LOT));
  return lots;
}
