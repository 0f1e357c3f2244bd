import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { create, type Font } from "fontkit";
import { sfntOf } from "./woff.ts";

const require = createRequire(import.meta.url);
const file = (name: string) => sfntOf(readFileSync(require.resolve(`@fontsource/${name}`)));

/** The four faces a sheet is set in: B612 and B612 Mono, embedded as subsets so that text stays searchable. */
export const FACES = {
  plain: file("b612/files/b612-latin-400-normal.woff"),
  bold: file("b612/files/b612-latin-700-normal.woff"),
  mono: file("b612-mono/files/b612-mono-latin-400-normal.woff"),
  monoBold: file("b612-mono/files/b612-mono-latin-700-normal.woff"),
} as const;
export type Face = keyof typeof FACES;

let known: ReadonlySet<number> | null = null;

/** Every character that all four faces can show. */
function shown(): ReadonlySet<number> {
  if (known) return known;
  const sets = Object.values(FACES).map((bytes) => new Set((create(bytes) as Font).characterSet));
  known = new Set([...(sets[0] ?? [])].filter((c) => sets.every((s) => s.has(c))));
  return known;
}

/** What the faces lack and is common enough to say otherwise. */
const INSTEAD: Readonly<Record<string, string>> = { Ω: "ohm", "→": "to", "\t": " " };

/**
 * Text as the faces can show it, line breaks kept. An accent they lack is left off its letter; any other character
 * they lack becomes a
 * question mark, so that nothing vanishes unseen. The exact text is in the exported evidence.
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
