import type { Picture } from "../protocol/pictures.ts";
import type { RecordFact } from "../protocol/recordEvents.ts";
import type { Attribution } from "../session/attribution.ts";

/** A picture of a defect, as its life has it. Times are server milliseconds. */
export interface LifePicture extends Picture {
  at: number;
  name: string;
  /** Null while its bytes are kept. */
  removed: { at: number; name: string; reason: string } | null;
}

/** A defect with its pictures: what a picture's adding depends on. */
interface Pictured {
  no: number;
  id: string;
  closed: object | null;
  pictures: readonly LifePicture[];
}

type PictureFact = Extract<RecordFact, { type: "pictured" | "pictureRemoved" }>;

/** Returns a defect's pictures after one more was added or removed. One that comes back is at the end. */
export function picturesAfter(pictures: readonly LifePicture[], fact: PictureFact): LifePicture[] {
  const { at, name } = fact.by;
  if (fact.type === "pictured") {
    const others = pictures.filter((p) => p.sha256 !== fact.picture.sha256);
    return [...others, { ...fact.picture, at, name, removed: null }];
  }
  const removed = { at, name, reason: fact.reason };
  return pictures.map((p) => (p.sha256 === fact.sha256 ? { ...p, removed } : p));
}

/** The outcome of a picture that somebody adds. */
export type PictureVerdict =
  | { is: "added"; fact: Extract<RecordFact, { type: "pictured" }> }
  /** The defect has this very picture. */
  | { is: "known" }
  /** No defect with this id is open. */
  | { is: "noDefect" }
  | { is: "full" };

/**
 * Decides whether a picture is added to an open defect. Anybody may who may write one.
 * @param most pictures that one defect may have
 */
export function decidePicture(
  lives: readonly Pictured[],
  defect: string,
  picture: Picture,
  { by, person, most }: { by: Attribution; person: string; most: number },
): PictureVerdict {
  const life = lives.findLast((l) => l.id === defect && l.closed === null);
  if (!life) return { is: "noDefect" };
  const kept = life.pictures.filter((p) => p.removed === null);
  if (kept.some((p) => p.sha256 === picture.sha256)) return { is: "known" };
  if (kept.length >= most) return { is: "full" };
  return { is: "added", fact: { type: "pictured", no: life.no, picture, by, person } };
}
