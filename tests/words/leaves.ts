/** One sentence of a catalogue: its text, and the figures and names it has a place for, in alphabetical order. */
export interface Leaf {
  words: string;
  holds: string[];
}

/** Figures for calling a sentence. No sentence contains them by itself. */
const FIGURES = [71, 72, 73, 74, 75, 76];

/**
 * Returns every sentence by its path. A sentence that is a function is called with these figures, and they are found
 * again in its text.
 */
export function leaves(catalogue: object, path = ""): Map<string, Leaf> {
  const all = new Map<string, Leaf>();
  for (const [key, value] of Object.entries(catalogue)) {
    const at = path === "" ? key : `${path}.${key}`;
    if (at === "language" || value === null) continue;
    if (typeof value === "string") all.set(at, leaf(value, /\{\w\}/g));
    else if (typeof value === "function") all.set(at, leaf(String(value(...FIGURES)), /7[1-6]/g));
    else for (const [inner, found] of leaves(value as object, at)) all.set(inner, found);
  }
  return all;
}

function leaf(words: string, places: RegExp): Leaf {
  return { words, holds: [...new Set(words.match(places) ?? [])].sort() };
}
