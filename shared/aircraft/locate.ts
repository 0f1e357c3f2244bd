import type { FireWord, Item } from "../protocol/standing.ts";

/** Returns whether two words are the same one, told twice. */
export function isSameWord(a: FireWord, b: FireWord): boolean {
  return a.person === b.person && a.engine === b.engine && a.place === b.place;
}

/** Returns the item with these words of where it burns; each word stands once. Any item but a fire stays as it is. */
export function withWords(item: Item, words: readonly FireWord[]): Item {
  if (item.is !== "fire") return item;
  const known = item.said ?? [];
  const fresh = words.filter((w, i) => ![...known, ...words.slice(0, i)].some((k) => isSameWord(k, w)));
  return fresh.length === 0 ? item : { ...item, said: [...known, ...fresh] };
}

/** Returns the words of where an item burns. */
export function wordsOf(item: Item): readonly FireWord[] {
  return (item.is === "fire" && item.said) || [];
}
