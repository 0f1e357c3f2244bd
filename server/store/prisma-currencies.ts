import { Prisma, type PrismaClient } from "../../prisma/generated/sqlite/client.ts";
import type { StartAt } from "../../shared/house/starts.ts";
import { postSchema } from "../../shared/protocol/enums.ts";
import type { CurrencyDate, CurrencyStore } from "./currencies.ts";

export class PrismaCurrencies implements CurrencyStore {
  readonly #db: PrismaClient;

  constructor(db: PrismaClient) {
    this.#db = db;
  }

  dates(): Promise<CurrencyDate[]> {
    return this.#db.currencyDate.findMany();
  }

  async setDates(personId: string, dates: Readonly<Record<string, string>>): Promise<void> {
    const data = Object.entries(dates).map(([kind, until]) => ({ personId, kind, until }));
    await this.#db.$transaction([
      this.#db.currencyDate.deleteMany({ where: { personId } }),
      this.#db.currencyDate.createMany({ data }),
    ]);
  }

  async lastStarts(): Promise<StartAt[]> {
    const rows = await this.#db.lastStart.findMany();
    return rows.map((row) => ({ ...row, post: postSchema.parse(row.post), at: Number(row.at) }));
  }

  async noteStarts(starts: readonly StartAt[]): Promise<void> {
    await this.#db.$transaction(
      starts.map(({ personId, post, at }) =>
        this.#db.$executeRaw(Prisma.sql`
          INSERT INTO "LastStart" ("personId", "post", "at") VALUES (${personId}, ${post}, ${BigInt(at)})
          ON CONFLICT ("personId", "post") DO UPDATE SET "at" = excluded."at"
          WHERE excluded."at" > "LastStart"."at"`),
      ),
    );
  }
}
