import { chance } from "../../shared/partners/chance.ts";
import { CONDITION_IDS } from "../../shared/protocol/conditions.ts";
import { POSTS } from "../../shared/protocol/posts.ts";
import { UNITS } from "../../shared/protocol/quantity.ts";
import { STAGES } from "../../shared/protocol/stages.ts";
import type { AircraftType } from "../../shared/types/schema.ts";

type Key = string | number;
type Holder = Record<Key, unknown>;

/** Texts for people. A change of one changes no start. */
const TEXTS = new Set(["source", "orderSource", "note", "words", "wordsEs", "title", "titleEs", "author"]);
const NAMES = new Set(["name", "nameEs", "approvedBy", "id"]);

/** One change of a type: where, and what was done. */
export interface Mutation {
  path: string;
  did: string;
  type: unknown;
}

/** Returns a copy of a type that is changed in one place, always the same for the same number. */
export function mutated(type: AircraftType, number: number): Mutation {
  const copy = structuredClone(type) as unknown as Holder;
  const places = placesIn(copy);
  const pick = <T>(list: readonly T[], what: string): T =>
    list[Math.floor(chance(number, what) * list.length)] as T;
  const [holder, key, path] = pick(places, "place");
  const [did, value] = pick(changesOf(holder[key], key), "change");
  if (value !== GONE) holder[key] = value;
  else if (Array.isArray(holder)) holder.splice(Number(key), 1);
  else delete holder[key];
  return { path, did, type: copy };
}

const GONE = Symbol("gone");
type Change = readonly [did: string, value: unknown];

function changesOf(value: unknown, key: Key): Change[] {
  if (typeof value === "number")
    return [-1, 0, 0.1, 0.5, 0.9, 1.1, 2, 10, 1000]
      .map((by): Change => [`times ${by}`, value * by])
      .concat([
        ["plus 1", value + 1],
        ["minus 1", value - 1],
        ["left out", GONE],
      ]);
  if (typeof value === "boolean") return [["turned round", !value]];
  if (typeof value === "string") {
    const others = key === "unit" ? UNITS : key === "stage" ? STAGES : key === "post" ? POSTS : null;
    const many = others ?? [...CONDITION_IDS, "generator", "oilPressure", "oilTemp", ""];
    return many.map((v): Change => [`made ${v}`, v]);
  }
  if (Array.isArray(value))
    return [
      ["reversed", value.toReversed()],
      ["emptied", []],
      ["cut short", value.slice(0, -1)],
      ["without its first", value.slice(1)],
      ["with its first twice", value.slice(0, 1).concat(value)],
    ];
  return [["left out", GONE]];
}

/** Returns every place of a type that a start may depend on. */
function placesIn(value: unknown, path = ""): [Holder, Key, string][] {
  if (typeof value !== "object" || value === null) return [];
  const keys: Key[] = Array.isArray(value) ? [...value.keys()] : Object.keys(value);
  return keys
    .filter((key) => !TEXTS.has(String(key)) && (path.startsWith("checks") || !NAMES.has(String(key))))
    .flatMap((key) => {
      const inner = (value as Holder)[key];
      const at = path === "" ? String(key) : `${path}.${key}`;
      return [[value as Holder, key, at] as [Holder, Key, string], ...placesIn(inner, at)];
    });
}
