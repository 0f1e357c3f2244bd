import { z } from "zod";
import { Prisma, type PrismaClient } from "../../prisma/generated/sqlite/client.ts";
import type { RegisterEntryModel } from "../../prisma/generated/sqlite/models.ts";
import { canonical } from "../../shared/evidence/canonical.ts";
import {
  REGISTER,
  type RegisterEntry,
  type Registered,
  type RegisterKind,
} from "../../shared/house/register.ts";
import type { EntryMade, RegisterStore } from "./register.ts";

const kindSchema = z.enum(Object.keys(REGISTER) as [RegisterKind, ...RegisterKind[]]);

/** The register in the database, through Prisma. Each change is one statement, so that it is made whole or not at all. */
export class PrismaRegister implements RegisterStore {
  readonly #db: PrismaClient;

  constructor(db: PrismaClient) {
    this.#db = db;
  }

  async all<K extends RegisterKind>(kind: K): Promise<RegisterEntry<K>[]> {
    const rows = await this.#db.$queryRaw<RegisterEntryModel[]>(Prisma.sql`
      SELECT e.* FROM "RegisterEntry" e
      WHERE e."kind" = ${kind} AND e."revision" =
        (SELECT MAX(n."revision") FROM "RegisterEntry" n WHERE n."kind" = e."kind" AND n."id" = e."id")
      ORDER BY e."id"`);
    // Sorted here, because PostgreSQL orders text by the language of its database.
    return rows.map((row) => toEntry(kind, row)).sort((a, b) => (a.id < b.id ? -1 : 1));
  }

  async one<K extends RegisterKind>(kind: K, id: string): Promise<RegisterEntry<K> | null> {
    return (await this.history(kind, id, 1))[0] ?? null;
  }

  async history<K extends RegisterKind>(kind: K, id: string, most: number): Promise<RegisterEntry<K>[]> {
    const rows = await this.#db.registerEntry.findMany({
      where: { kind, id },
      orderBy: { revision: "desc" },
      take: most,
    });
    return rows.map((row) => toEntry(kind, row));
  }

  async madeBy(person: string): Promise<EntryMade[]> {
    const rows = await this.#db.registerEntry.findMany({
      where: { by: person },
      orderBy: [{ at: "asc" }, { revision: "asc" }],
      select: { kind: true, id: true, revision: true, at: true },
    });
    return rows.map((row) => ({ ...row, kind: kindSchema.parse(row.kind), at: Number(row.at) }));
  }

  async append(entries: readonly RegisterEntry[]): Promise<boolean> {
    try {
      await this.#db.registerEntry.createMany({
        data: entries.map((e) => ({ ...e, at: BigInt(e.at), body: canonical(e.body) })),
      });
      return true;
    } catch (error) {
      if ((error as { code?: string }).code === "P2002") return false;
      throw error;
    }
  }
}

function toEntry<K extends RegisterKind>(kind: K, row: RegisterEntryModel): RegisterEntry<K> {
  const { id, by, reason } = row;
  // The table's schema of this kind gives this kind's form; the compiler cannot follow that through the table.
  const body = REGISTER[kind].parse(JSON.parse(row.body)) as Registered<K>;
  return { kind, id, by, reason, body, revision: Number(row.revision), at: Number(row.at) };
}
