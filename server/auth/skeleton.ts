/**
 * Letters that look like Latin ones, by script: a small part of the table of Unicode UTS 39 (confusables.txt), for the
 * scripts a name on a ramp may be typed in. The Latin side is in small letters.
 */
const ALIKE: Readonly<Record<string, string>> = {
  // Cyrillic
  а: "a",
  в: "b",
  е: "e",
  ё: "e",
  і: "i",
  ї: "i",
  ј: "j",
  к: "k",
  м: "m",
  н: "h",
  о: "o",
  р: "p",
  с: "c",
  т: "t",
  у: "y",
  х: "x",
  ѕ: "s",
  ԁ: "d",
  ԛ: "q",
  ԝ: "w",
  ү: "y",
  һ: "h",
  ӏ: "i",
  г: "r",
  п: "n",
  ь: "b",
  // Greek
  α: "a",
  β: "b",
  γ: "y",
  ε: "e",
  ζ: "z",
  η: "n",
  ι: "i",
  κ: "k",
  μ: "u",
  ν: "v",
  ο: "o",
  ρ: "p",
  σ: "o",
  ς: "c",
  τ: "t",
  υ: "u",
  χ: "x",
  ω: "w",
  ϲ: "c",
  ϳ: "j",
  // Armenian
  ա: "w",
  հ: "h",
  ո: "n",
  ս: "u",
  օ: "o",
  ց: "g",
  զ: "q",
  // Latin and digits
  ı: "i",
  ł: "l",
  ø: "o",
  đ: "d",
  ħ: "h",
  ɑ: "a",
  ɡ: "g",
  ƒ: "f",
  ß: "b",
  l: "i",
  "0": "o",
  "1": "i",
  "|": "i",
  "!": "i",
  "5": "s",
  "8": "b",
};

/** Pairs that look like one letter in the panels' face. */
const PAIRS: readonly (readonly [string, string])[] = [
  ["rn", "m"],
  ["vv", "w"],
];

/**
 * Returns what a name looks like: two names with the same skeleton are told apart by nobody who glances at a panel.
 * Compatible forms are folded (NFKC), case, marks, spaces and punctuation dropped, and letters alike made one.
 */
export function skeleton(name: string): string {
  const folded = name.normalize("NFKC").toLowerCase().normalize("NFKD").replace(/\p{M}/gu, "");
  const alike = [...folded].map((letter) => ALIKE[letter] ?? letter).join("");
  const bare = alike.replace(/[^\p{L}\p{N}]/gu, "");
  return PAIRS.reduce((text, [pair, one]) => text.replaceAll(pair, one), bare);
}
