import { Prisma, type PrismaClient } from "../../prisma/generated/sqlite/client.ts";
import type { PictureMedia } from "../../shared/protocol/pictures.ts";
import type { PictureKey, PictureRow, PictureStore, StoredPicture } from "./pictures.ts";

const ROW = {
  record: true,
  no: true,
  sha256: true,
  at: true,
  personId: true,
  media: true,
  length: true,
} as const;

export class PrismaPictures implements PictureStore {
  readonly #db: PrismaClient;

  constructor(db: PrismaClient) {
    this.#db = db;
  }

  async keep({ record, no, sha256, at, personId, media, length, bytes }: StoredPicture): Promise<void> {
    await this.#db.$executeRaw(Prisma.sql`
      INSERT INTO "Picture" ("record", "no", "sha256", "at", "personId", "media", "length", "bytes")
      VALUES (${record}, ${no}, ${sha256}, ${BigInt(at)}, ${personId}, ${media}, ${length}, ${Buffer.from(bytes)})
      ON CONFLICT ("record", "no", "sha256") DO NOTHING`);
  }

  async picture({ record, no, sha256 }: PictureKey): Promise<StoredPicture | null> {
    const row = await this.#db.picture.findUnique({ where: { record_no_sha256: { record, no, sha256 } } });
    return row && { ...rowOf(row), bytes: row.bytes };
  }

  async rows(record?: string): Promise<PictureRow[]> {
    const rows = await this.#db.picture.findMany({
      select: ROW,
      where: record === undefined ? {} : { record },
      orderBy: [{ at: "asc" }, { sha256: "asc" }],
    });
    return rows.map(rowOf);
  }

  async use(personId: string, since: number): Promise<{ bytes: number; ofPerson: number }> {
    const all = await this.#db.picture.aggregate({ _sum: { length: true } });
    const ofPerson = await this.#db.picture.count({ where: { personId, at: { gte: BigInt(since) } } });
    return { bytes: Number(all._sum.length ?? 0), ofPerson };
  }

  async forget({ record, no, sha256 }: PictureKey): Promise<void> {
    await this.#db.picture.deleteMany({ where: { record, no, sha256 } });
  }
}

type Row = Omit<PictureRow, "at" | "media"> & { at: bigint; media: string };

const rowOf = ({ record, no, sha256, at, personId, media, length }: Row): PictureRow => ({
  ...{ record, no, sha256, personId, length },
  at: Number(at),
  media: media as PictureMedia,
});
