import type { Source } from "../../../shared/types/limit.ts";
import { written } from "../../../shared/words/quantity.ts";
import type { TypeNames } from "./names.ts";

/** One line of a type: a figure, or the heading of the lines below it. */
export interface Row {
  key: string;
  depth: number;
  label: string;
  /** Null for a heading. */
  value: string | null;
  source: Source | null;
}

type Members = Readonly<Record<string, unknown>>;

/**
 * Returns a part of a type as lines, in the type's order. Figures and sources are recognised by their members, not
 * their names.
 */
export function rowsOf(value: unknown, label: string, key: string, names: TypeNames, depth = 0): Row[] {
  if (Array.isArray(value)) return listRows(value, label, key, names, depth);
  if (!isMembers(value)) return [{ key, depth, label, value: names.value(value), source: null }];
  if (isSource(value)) return [{ key, depth, label, value: null, source: value }];
  const source = isSource(value.source) ? value.source : null;
  if ("value" in value) return [{ key, depth, label, value: figureWords(value), source }];
  const members = Object.entries(value).filter(([name]) => name !== "source" && name !== titleKey(value));
  const plain = members.every(([, v]) => typeof v !== "object" || v === null);
  if (plain) {
    const known = members.filter(([, v]) => v !== null);
    const words = known.map(([name, v]) => `${names.name(name).toLowerCase()}: ${names.value(v)}`).join(", ");
    return [{ key, depth, label, value: words, source }];
  }
  const heading = label === "" ? [] : [{ key, depth, label, value: null, source }];
  const under = label === "" ? depth : depth + 1;
  return [
    ...heading,
    ...members.flatMap(([name, v]) => rowsOf(v, names.name(name), `${key}.${name}`, names, under)),
  ];
}

function listRows(
  list: readonly unknown[],
  label: string,
  key: string,
  names: TypeNames,
  depth: number,
): Row[] {
  const plain = list.every((v) => typeof v !== "object" || v === null);
  if (plain) {
    const words = list.map(names.value).join(", ");
    return [{ key, depth, label, value: words === "" ? names.none : words, source: null }];
  }
  const heading = label === "" ? [] : [{ key, depth, label, value: null, source: null }];
  const under = label === "" ? depth : depth + 1;
  return [
    ...heading,
    ...list.flatMap((v, i) => rowsOf(v, itemTitle(v, i, names), `${key}.${i}`, names, under)),
  ];
}

/** Returns the name of a list item. */
export function itemTitle(item: unknown, index: number, names: Pick<TypeNames, "number">): string {
  if (!isMembers(item)) return String(index + 1);
  const key = titleKey(item);
  if (key === null) return String(index + 1);
  const title = String(item[key]);
  return key === "n" ? names.number(title) : title || String(index + 1);
}

function titleKey(item: Members): string | null {
  return ["name", "title", "words", "n", "gauge", "id"].find((k) => k in item) ?? null;
}

function figureWords({ value, unit }: Members): string {
  return typeof unit === "string" ? written({ value: Number(value), unit }) : String(value);
}

function isSource(value: unknown): value is Source {
  return isMembers(value) && typeof value.basis === "string" && typeof value.text === "string";
}

const isMembers = (v: unknown): v is Members => typeof v === "object" && v !== null && !Array.isArray(v);
