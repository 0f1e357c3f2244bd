import type { Item, Mended } from "../protocol/standing.ts";
import { later } from "./later.ts";

/** Returns the later of two mendings of one defect. */
export function laterMended(a: Mended | undefined, b: Mended | undefined): Mended | undefined {
  if (a === undefined || b === undefined) return b ?? a;
  return later(a, b);
}

/** Returns the item as mended; the item itself if it is no defect, or if its own mending is later. */
export function withMended(item: Item, told: Mended | undefined): Item {
  if (item.is !== "defect") return item;
  const mended = laterMended(item.mended, told);
  return mended === item.mended || mended === undefined ? item : { ...item, mended };
}
