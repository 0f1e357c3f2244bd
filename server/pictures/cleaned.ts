import type { PictureMedia } from "../../shared/protocol/pictures.ts";

/** The reason why a file is not taken as a picture. */
export type PictureFault = "notPicture" | "truncated" | "damaged" | "animated" | "unusual" | "tooManyPixels";

/** A picture without anything but what is needed to show it. */
export interface CleanPicture {
  media: PictureMedia;
  width: number;
  height: number;
  bytes: Uint8Array;
}

export type Cleaned = ({ ok: true } & CleanPicture) | { ok: false; fault: PictureFault };

export const bad = (fault: PictureFault): Cleaned => ({ ok: false, fault });

/** A longer side than this is refused, in pixels. */
const MOST_SIDE = 8_192;
/** Pixels: a telephone's picture has 12 million. A browser needs 4 bytes for each to show it. */
const MOST_PIXELS = 16_777_216;

/** Returns false for a picture that would take too much memory to show. */
export function isShowable(width: number, height: number): boolean {
  return width <= MOST_SIDE && height <= MOST_SIDE && width * height <= MOST_PIXELS;
}
