import type { ConditionId } from "../../../shared/conditions/condition.ts";
import { conditions } from "../../../shared/words/en/conditions.ts";
import { posts, stages } from "../../../shared/words/en/states.ts";
import { unitWord } from "../../../shared/words/units.ts";
import { BASES, PARTS, WHOLE } from "../../words/parts.ts";

/** `firstIndication` to "First indication". */
export function nameWords(name: string): string {
  return PARTS[name] ?? apart(name);
}

/** A value that is one of a few, e.g. a unit, a post or a condition. */
export function valueWords(value: unknown): string {
  if (value === null) return "none";
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (typeof value === "number") return String(value);
  const text = String(value);
  const named =
    conditions[text as ConditionId]?.name ??
    BASES[text] ??
    (posts as Record<string, string>)[text] ??
    (stages as Record<string, string>)[text];
  if (named) return named;
  const unit = unitWord(text);
  if (unit !== text) return unit || "count";
  return /^[a-z][A-Za-z]*(:[A-Za-z]+)?$/.test(text) && /[A-Z:]/.test(text) ? apart(text) : text;
}

export function basisWords(basis: string): string {
  return BASES[basis] ?? apart(basis);
}

/** A fault's or difference's path in words, "oil.normal.within" to "Oil, normal, within". */
export function pathWords(path: string): string {
  if (path === "") return WHOLE;
  const [first = "", ...rest] = path.split(".");
  return [nameWords(first), ...rest.map((p) => lowerFirst(/^\d+$/.test(p) ? p : nameWords(p)))].join(", ");
}

/** A fault's path counts list items from 0; people count from 1. */
export function faultPathWords(path: string): string {
  return pathWords(path.replace(/\.(\d+)(?=\.|$)/g, (_, i: string) => `.${Number(i) + 1}`));
}

export function dayWords(ms: number): string {
  return new Date(ms).toISOString().slice(0, 10);
}

function apart(name: string): string {
  const words = name
    .replace(":", ": ")
    .replace(/([a-z0-9])([A-Z])/g, (_, a: string, b: string) => `${a} ${b.toLowerCase()}`);
  return words.charAt(0).toUpperCase() + words.slice(1);
}

const lowerFirst = (text: string) => text.charAt(0).toLowerCase() + text.slice(1);
