import type { PictureKey, PictureRow, PictureStore, StoredPicture } from "./pictures.ts";

const keyOf = ({ record, no, sha256 }: PictureKey) => `${record} ${no} ${sha256}`;

export class MemoryPictures implements PictureStore {
  readonly #pictures = new Map<string, StoredPicture>();

  async keep(picture: StoredPicture): Promise<void> {
    if (!this.#pictures.has(keyOf(picture))) this.#pictures.set(keyOf(picture), picture);
  }

  async picture(key: PictureKey): Promise<StoredPicture | null> {
    return this.#pictures.get(keyOf(key)) ?? null;
  }

  async rows(record?: string): Promise<PictureRow[]> {
    return [...this.#pictures.values()]
      .filter((p) => record === undefined || p.record === record)
      .map(({ bytes: _bytes, ...row }) => row)
      .sort((a, b) => a.at - b.at || (a.sha256 < b.sha256 ? -1 : 1));
  }

  async use(personId: string, since: number): Promise<{ bytes: number; ofPerson: number }> {
    const all = [...this.#pictures.values()];
    return {
      bytes: all.reduce((sum, p) => sum + p.length, 0),
      ofPerson: all.filter((p) => p.personId === personId && p.at >= since).length,
    };
  }

  async forget(key: PictureKey): Promise<void> {
    this.#pictures.delete(keyOf(key));
  }
}
