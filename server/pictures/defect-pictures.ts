import type { DefectLife } from "../../shared/defects/lives.ts";
import { decidePicture, type LifePicture, type PictureVerdict } from "../../shared/defects/pictures.ts";
import type { Picture } from "../../shared/protocol/pictures.ts";
import { recordId } from "../aircraft/held-record.ts";
import type { AircraftRecords } from "../aircraft/records.ts";
import type { Clock } from "../clock.ts";
import { OneAtATime } from "../one-at-a-time.ts";
import { sha256OfBytes } from "../sha256.ts";
import { StoreFailure } from "../store/events.ts";
import type { PictureStore, StoredPicture } from "../store/pictures.ts";
import { cleanPicture } from "./clean.ts";
import type { PictureFault } from "./cleaned.ts";
import type { PictureLimits } from "./limits.ts";

const DAY_MS = 86_400_000;
const MEGABYTE = 1_000_000;

interface Deps {
  records: Pick<AircraftRecords, "defects" | "atDefects">;
  store: PictureStore;
  clock: Clock;
  limits: PictureLimits;
}

interface Person {
  id: string;
  name: string;
  device: string;
}

/** The outcome of a picture that was sent. */
export type PictureTaken =
  | { is: "kept"; picture: Picture }
  | { is: "faulty"; fault: PictureFault }
  | { is: "noDefect" }
  | { is: "full"; of: "defect" | "person" | "all" };

/**
 * The pictures of the aircraft's defects. The evidence has their digests, the database their bytes. The bytes are stored
 * first, so that a crash in between leaves bytes that nothing names, and never a name without bytes.
 */
export class DefectPictures {
  readonly #deps: Deps;
  /** One picture is looked at after the other, so that a flood of them takes one thread at most. */
  readonly #cleaning = new OneAtATime();

  constructor(deps: Deps) {
    this.#deps = deps;
  }

  /**
   * Adds a picture to an open defect. The same picture, and the same command, add it once.
   * @throws StoreFailure
   */
  async add(
    aircraft: { id: string; engines: number },
    defect: string,
    file: Uint8Array,
    person: Person,
    command: string,
  ): Promise<PictureTaken> {
    const { records, store, clock, limits } = this.#deps;
    const life = lifeOf(await records.defects(aircraft.id), defect);
    if (life?.closed !== null) return { is: "noDefect" };
    const clean = await this.#cleaning.run(() => cleanPicture(file));
    if (!clean.ok) return { is: "faulty", fault: clean.fault };
    const now = clock.now();
    const { bytes, media, width, height } = clean;
    const picture: Picture = { sha256: sha256OfBytes(bytes), media, length: bytes.length, width, height };
    // One that is there already takes no room: its answer may have been lost.
    if (keptOf(life, picture.sha256)) return { is: "kept", picture };
    const use = await store.use(person.id, now - DAY_MS);
    if (use.ofPerson >= limits.perPersonADay) return { is: "full", of: "person" };
    if (use.bytes + bytes.length > limits.megabytes * MEGABYTE) return { is: "full", of: "all" };
    // For a command that was kept before, nothing is decided below.
    let verdict: PictureVerdict = { is: "known" };
    await records.atDefects(
      aircraft,
      person,
      command,
      (lives, by) => {
        verdict = decidePicture(lives, defect, picture, { by, person: person.id, most: limits.perDefect });
        return verdict.is === "added" ? [verdict.fact] : [];
      },
      async (record) => {
        if (verdict.is !== "added") return;
        const { no } = verdict.fact;
        const { sha256, length } = picture;
        await store.keep({ record, no, sha256, at: now, personId: person.id, media, length, bytes });
      },
    );
    const { is } = verdict as PictureVerdict;
    if (is === "noDefect") return { is };
    return is === "full" ? { is, of: "defect" } : { is: "kept", picture };
  }

  /**
   * Returns a picture of a defect; null when there is none, or its bytes were removed.
   * @throws StoreFailure when the bytes are not those that the evidence names
   */
  async read(aircraft: string, defect: string, digest: string): Promise<StoredPicture | null> {
    const life = lifeOf(await this.#deps.records.defects(aircraft), defect);
    if (!life || !keptOf(life, digest)) return null;
    return this.#bytes({ record: recordId(aircraft), no: life.no, sha256: digest });
  }

  /** Yields every picture of the aircraft's defects whose bytes are kept, each once. */
  async *all(aircraft: string): AsyncGenerator<StoredPicture> {
    const sent = new Set<string>();
    for (const { no, pictures } of await this.#deps.records.defects(aircraft))
      for (const { sha256, removed } of pictures) {
        if (removed !== null || sent.has(sha256)) continue;
        sent.add(sha256);
        const found = await this.#bytes({ record: recordId(aircraft), no, sha256 });
        if (found) yield found;
      }
  }

  /** Returns the defects' pictures whose bytes are kept, as number and digest. */
  async kept(aircraft: string): Promise<Set<string>> {
    const rows = await this.#deps.store.rows(recordId(aircraft));
    return new Set(rows.map(({ no, sha256 }) => `${no} ${sha256}`));
  }

  /**
   * Removes a picture's bytes for a reason. The evidence keeps its digest, and who removed it.
   * @returns false when there is no such picture, or it was removed before
   * @throws StoreFailure
   */
  async remove(
    aircraft: { id: string; engines: number },
    defect: string,
    digest: string,
    reason: string,
    person: Person,
    command: string,
  ): Promise<boolean> {
    const { records, store } = this.#deps;
    const life = lifeOf(await records.defects(aircraft.id), defect);
    if (!life || !keptOf(life, digest)) return false;
    const { no } = life;
    await records.atDefects(aircraft, person, command, (lives, by) => {
      const now = lives.find((l) => l.no === no);
      if (!now || !keptOf(now, digest)) return [];
      return [{ type: "pictureRemoved", no, sha256: digest, reason, by, person: person.id }];
    });
    await store.forget({ record: recordId(aircraft.id), no, sha256: digest });
    return true;
  }

  async #bytes(key: Parameters<PictureStore["picture"]>[0]): Promise<StoredPicture | null> {
    const found = await this.#deps.store.picture(key);
    if (found && sha256OfBytes(found.bytes) !== key.sha256)
      throw new StoreFailure(`the bytes of picture ${key.sha256} of ${key.record} are damaged`);
    return found;
  }
}

const lifeOf = (lives: readonly DefectLife[], defect: string): DefectLife | undefined =>
  lives.findLast(({ id }) => id === defect);

const keptOf = (life: DefectLife, digest: string): LifePicture | undefined =>
  life.pictures.find((p) => p.sha256 === digest && p.removed === null);
