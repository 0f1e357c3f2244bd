import { canonical } from "../evidence/canonical.ts";
import { basisSchema } from "./limit.ts";
import { isMembers, type Members } from "./members.ts";

/**
 * Returns a type, or the unfinished part of one, in which each figure says who entered it: this person where the figure
 * or its source differs from `before`, else whoever it said before. What the data itself says of it counts for nothing.
 */
export function enteredBy(before: unknown, after: unknown, name: string): unknown {
  if (Array.isArray(after)) {
    const own = new Map((Array.isArray(before) ? before : []).map((v, i) => [nameOf(v) ?? i, v]));
    return after.map((v, i) => enteredBy(own.get(nameOf(v) ?? i), v, name));
  }
  if (!isMembers(after)) return after;
  const was = isMembers(before) ? before : {};
  const entries = Object.entries(after).map(([key, value]) => [key, enteredBy(was[key], value, name)]);
  const members: Members = Object.fromEntries(entries);
  if (isMembers(after.source))
    return { ...members, source: signed(was.source, after.source, was, after, name) };
  return isSource(after) ? signed(was, after, was, after, name) : members;
}

/** Returns the source of a figure with the name of the person who entered the figure. */
function signed(wasSource: unknown, source: Members, was: Members, after: Members, name: string): Members {
  const { by: _claimed, ...bare } = source;
  if (!basisSchema.safeParse(bare.basis).success) return bare;
  const same = canonical(unsigned(was)) === canonical(unsigned(after));
  const by = same && isMembers(wasSource) ? wasSource.by : name;
  return by === undefined ? bare : { ...bare, by };
}

/** Returns a copy in which no source says who entered it. */
function unsigned(value: unknown): unknown {
  if (Array.isArray(value)) return value.map(unsigned);
  if (!isMembers(value)) return value;
  const entries = Object.entries(value).filter(([key]) => !(key === "by" && isSource(value)));
  return Object.fromEntries(entries.map(([key, inner]) => [key, unsigned(inner)]));
}

const isSource = (v: Members) => typeof v.basis === "string" && typeof v.text === "string";

/** Returns what identifies a list's item, or null where nothing does. */
const nameOf = (v: unknown) =>
  isMembers(v) && (typeof v.id === "string" || typeof v.n === "number") ? String(v.id ?? v.n) : null;
