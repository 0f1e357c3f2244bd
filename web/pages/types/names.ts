import { CONDITION_IDS } from "../../../shared/protocol/conditions.ts";
import { POSTS } from "../../../shared/protocol/posts.ts";
import { STAGES } from "../../../shared/protocol/stages.ts";
import type { Say } from "../../../shared/words/say.ts";
import { unitWord } from "../../../shared/words/units.ts";
import type { TypeWords } from "../../words/en/types.ts";
import { type PartNames, usePartNames, useTypeWords } from "../../words/types.ts";
import { useWords } from "../../words/words.ts";

/** Names of the parts of a type, in one language. */
export interface TypeNames {
  /** `firstIndication` to "First indication". */
  name(part: string): string;
  /** Returns the name of an enumeration value, e.g. a unit, a post or a condition; an author's text unchanged. */
  value(value: unknown): string;
  /** Returns a difference's path in words: "oil.normal.within" to "Oil, normal, within". */
  path(path: string): string;
  /** Returns a fault's path in words. Its list items count from 0; people count from 1. */
  faultPath(path: string): string;
  /** Returns the name of a list item that is identified by its number. */
  number(n: string): string;
  none: string;
}

const JOINED = /[A-Z:]/;
const IDENTIFIER = /^[a-z][A-Za-z0-9]*(:[A-Za-z]+)?$/;

export function typeNames(words: TypeWords, parts: PartNames, say: Say): TypeNames {
  const known = (key: string) => (Object.hasOwn(parts, key) ? parts[key] : undefined);
  const name = (part: string) => known(part) ?? apart(part);
  const listed = (text: string) => {
    if (isOne(CONDITION_IDS, text)) return say.conditionName(text);
    if (isOne(POSTS, text)) return say.post(text);
    return isOne(STAGES, text) ? say.stage(text) : undefined;
  };
  const one = (text: string) => {
    const unit = unitWord(text);
    if (unit !== text) return unit || words.count;
    const identifier = IDENTIFIER.test(text);
    return (
      listed(text) ??
      (identifier ? known(text) : undefined) ??
      (identifier && JOINED.test(text) ? apart(text) : text)
    );
  };
  const path = (text: string) => {
    if (text === "") return words.whole;
    const [first = "", ...rest] = text.split(".");
    return [name(first), ...rest.map((p) => lowerFirst(/^\d+$/.test(p) ? p : name(p)))].join(", ");
  };
  return {
    name,
    path,
    none: words.noValue,
    number: words.numbered,
    faultPath: (text) => path(text.replace(/\.(\d+)(?=\.|$)/g, (_, i: string) => `.${Number(i) + 1}`)),
    value(value) {
      if (value === null) return words.noValue;
      if (typeof value === "boolean") return value ? words.yes : words.no;
      return typeof value === "number" ? String(value) : one(String(value));
    },
  };
}

export const useTypeNames = (): TypeNames => typeNames(useTypeWords(), usePartNames(), useWords().say);

function apart(name: string): string {
  const words = name
    .replace(":", ": ")
    .replace(/([a-z0-9])([A-Z])/g, (_, a: string, b: string) => `${a} ${b.toLowerCase()}`);
  return words.charAt(0).toUpperCase() + words.slice(1);
}

const isOne = <T extends string>(of: readonly T[], text: string): text is T => of.includes(text as T);

const lowerFirst = (text: string) => text.charAt(0).toLowerCase() + text.slice(1);
