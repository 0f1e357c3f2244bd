import type { TypeFault } from "../../shared/types/validate.ts";

/** Entries of one list, or members of one object, in an aircraft type. The longest of the schema has 64. */
const ENTRIES = 200;
/** Values in the whole of it. The demo's largest type has some 2,500. */
const VALUES = 20_000;
/** Levels of lists and objects within each other. The schema has 8. */
const LEVELS = 16;

/** Returns the first place where data is larger than an aircraft type can be, or null. Visits no more than that. */
export function oversize(data: unknown): TypeFault | null {
  let values = 0;
  const open: { path: string; value: unknown; level: number }[] = [{ path: "", value: data, level: 0 }];
  for (let one = open.pop(); one; one = open.pop()) {
    const { path, value, level } = one;
    if (typeof value !== "object" || value === null) continue;
    if (level > LEVELS) return { path: path.slice(0, 200), message: "lies deeper than any part of a type" };
    const count = Array.isArray(value) ? value.length : Object.keys(value).length;
    if (count > ENTRIES) return { path, message: `has ${count} entries, more than any list here` };
    const entries = Object.entries(value);
    values += entries.length;
    if (values > VALUES) return { path: "", message: `has more values than any aircraft type` };
    for (const [key, inner] of entries)
      open.push({ path: path === "" ? key : `${path}.${key}`, value: inner, level: level + 1 });
  }
  return null;
}
