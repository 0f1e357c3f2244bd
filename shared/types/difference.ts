import { isMembers } from "./members.ts";
import type { AircraftType } from "./schema.ts";

/** One part that differs between two versions; null where a version lacks it. */
export interface Difference {
  /** Names joined by dots. A list item is named by its id or engine number if it has one, else by its place from 1. */
  path: string;
  before: string | null;
  after: string | null;
}

/** These identify a version and are not figures. */
const NOT_FIGURES = new Set(["version", "author", "approvedBy"]);

/**
 * Returns everything that differs between two versions of a type, in the order of the type. Figures are in words, with
 * their units and sources. Equal types give an empty list.
 */
export function difference(before: AircraftType, after: AircraftType): Difference[] {
  return members(before, after, "", NOT_FIGURES);
}

function compare(before: unknown, after: unknown, path: string): Difference[] {
  if (isList(before) || isList(after)) return lists(before, after, path);
  const [a, b] = [wordsOf(before), wordsOf(after)];
  if (isMembers(before) || isMembers(after)) {
    const whole = (v: unknown, words: string | null) => v === undefined || words !== null;
    // Both are figures or sources, or one is and the other is absent.
    if (whole(before, a) && whole(after, b)) {
      const figure = a === b ? [] : [{ path, before: a, after: b }];
      return [...figure, ...sources(before, after, path)];
    }
    return members(before, after, path);
  }
  return a === b ? [] : [{ path, before: a, after: b }];
}

function members(before: unknown, after: unknown, path: string, leftOut?: ReadonlySet<string>): Difference[] {
  const [a, b] = [isMembers(before) ? before : {}, isMembers(after) ? after : {}];
  const keys = new Set([...Object.keys(a), ...Object.keys(b)].filter((k) => !leftOut?.has(k)));
  return [...keys].flatMap((key) => compare(a[key], b[key], join(path, key)));
}

/** Returns the difference of the sources that stand beside a figure. */
function sources(before: unknown, after: unknown, path: string): Difference[] {
  const of = (v: unknown) => (isMembers(v) ? v.source : undefined);
  const [a, b] = [of(before), of(after)];
  return a === undefined && b === undefined ? [] : compare(a, b, join(path, "source"));
}

function lists(before: unknown, after: unknown, path: string): Difference[] {
  const [a, b] = [isList(before) ? before : [], isList(after) ? after : []];
  const plain = [...a, ...b].every((v) => typeof v !== "object" || v === null);
  if (plain) return plainLists(a, b, path, before === undefined, after === undefined);
  const [namesA, namesB] = [namesOf(a), namesOf(b)];
  const names =
    namesA && namesB ? [...new Set([...namesA, ...namesB])] : places(Math.max(a.length, b.length));
  const item = (list: readonly unknown[], own: string[] | null, name: string) =>
    list[namesA && namesB && own ? own.indexOf(name) : Number(name) - 1];
  const found = names.flatMap((name) =>
    compare(item(a, namesA, name), item(b, namesB, name), join(path, name)),
  );
  return [...order(namesA, namesB, path), ...found];
}

/** Compares the order of named items, which is separate from their content. */
function order(a: string[] | null, b: string[] | null, path: string): Difference[] {
  if (!a || !b) return [];
  const [stayA, stayB] = [a.filter((n) => b.includes(n)), b.filter((n) => a.includes(n))];
  return stayA.join() === stayB.join() ? [] : [{ path, before: a.join(", "), after: b.join(", ") }];
}

function plainLists(
  a: readonly unknown[],
  b: readonly unknown[],
  path: string,
  noneBefore: boolean,
  noneAfter: boolean,
): Difference[] {
  const [before, after] = [a.map(String), b.map(String)];
  if (before.join("\n") === after.join("\n") && noneBefore === noneAfter) return [];
  const numbers = [...a, ...b].some((v) => typeof v === "number");
  const gone = before.filter((v) => !after.includes(v));
  const come = after.filter((v) => !before.includes(v));
  const whole = {
    path,
    before: noneBefore ? null : before.join(", "),
    after: noneAfter ? null : after.join(", "),
  };
  if (numbers || gone.length + come.length === 0 || repeats(before) || repeats(after)) return [whole];
  return [
    ...gone.map((v) => ({ path, before: v, after: null })),
    ...come.map((v) => ({ path, before: null, after: v })),
    ...order(before, after, path),
  ];
}

/** Returns a scalar, a figure with its unit, or a source in words; null for anything that has parts of its own. */
function wordsOf(value: unknown): string | null {
  if (value === undefined) return null;
  if (value === null) return "none";
  if (!isMembers(value)) return isList(value) ? null : String(value);
  const keys = Object.keys(value).filter((k) => k !== "source");
  if ("value" in value && keys.every((k) => k === "value" || k === "unit"))
    return [value.value, value.unit].filter((v) => v !== undefined).join(" ");
  if (typeof value.basis === "string" && typeof value.text === "string")
    return `${BASIS[value.basis] ?? value.basis}: ${typeof value.page === "string" ? `${value.text}, ${value.page}` : value.text}`;
  return null;
}

const BASIS: Readonly<Record<string, string>> = {
  published: "Published",
  commonPractice: "Common practice",
  fromMemory: "From memory",
  anotherType: "About another type",
  invented: "Invented",
};

/** Returns the items' ids or engine numbers; null unless all have one and no two are the same. */
function namesOf(list: readonly unknown[]): string[] | null {
  const names = list.map((v) => (isMembers(v) ? (v.id ?? v.n) : undefined));
  if (names.some((n) => typeof n !== "string" && typeof n !== "number")) return null;
  const words = names.map(String);
  return repeats(words) ? null : words;
}

const repeats = (list: readonly string[]) => new Set(list).size !== list.length;
const places = (count: number) => Array.from({ length: count }, (_, i) => String(i + 1));
const join = (path: string, name: string) => (path === "" ? name : `${path}.${name}`);
const isList = (v: unknown): v is readonly unknown[] => Array.isArray(v);
