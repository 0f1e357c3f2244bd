import type { BladeCount } from "../engine/life.ts";
import { later } from "./later.ts";

/** Returns the newest of two blade counts. Resistance is lost to no count of the same millisecond. */
export function newestCount(a: BladeCount | null, b: BladeCount | null): BladeCount | null {
  if (!a || !b) return a ?? b;
  return later(a, b, ({ resistance }) => resistance);
}
