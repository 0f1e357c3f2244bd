import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { create, type Font } from "fontkit";
import { sfntOf } from "./woff.ts";

const require = createRequire(import.meta.url);
const file = (name: string) => sfntOf(readFileSync(require.resolve(`@fontsource/${name}`)));

/**
 * The four font faces of the printed pages: B612 and B612 Mono. They are embedded as subsets, so the text stays
 * searchable.
 */
export const FACES = {
  plain: file("b612/files/b612-latin-400-normal.woff"),
  bold: file("b612/files/b612-latin-700-normal.woff"),
  mono: file("b612-mono/files/b612-mono-latin-400-normal.woff"),
  monoBold: file("b612-mono/files/b612-mono-latin-700-normal.woff"),
} as const;
export type Face = keyof typeof FACES;

let known: ReadonlySet<number> | null = null;

/** Returns every code point that all four faces have. */
function shown(): ReadonlySet<number> {
  if (known) return known;
  const sets = Object.values(FACES).map((bytes) => new Set((create(bytes) as Font).characterSet));
  known = new Set([...(sets[0] ?? [])].filter((c) => sets.every((s) => s.has(c))));
  return known;
}

/** Replacements for common characters that the faces lack. */
const INSTEAD: Readonly<Record<string, string>> = { Ω: "ohm", "→": "to", "\t": " " };

/**
 * Returns the text in characters the faces have; line breaks stay. A missing accent is left off its letter. Any other
 * missing character becomes a question mark, so that the reader sees that something is missing. The exact text is in
 * the exported evidence.
 */
export function printable(text: string): string {
  const has = shown();
  return [...text]
    .map((c) => {
      if (c === "\n" || has.has(c.codePointAt(0) ?? 0)) return c;
      if (INSTEAD[c] !== undefined) return INSTEAD[c];
      const bare = c.normalize("NFKD").replace(/\p{M}/gu, "");
      return bare !== "" && [...bare].every((b) => has.has(b.codePointAt(0) ?? 0)) ? bare : "?";
    })
    .join("");
}
