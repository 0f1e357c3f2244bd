import { readdirSync, readFileSync } from "node:fs";
import { expect, it } from "vitest";

const FOLDER = "web/styles/";
const SIZES = [
  ...["small", "text", "large", "sentence"],
  ...["answer", "stop"],
  ...["figure", "figure-large", "watched", "number", "number-low"],
  ...["far-text", "far", "far-number", "far-number-low", "wall", "caution"],
];
/** Texts within a drawing: their size is a part of its measures. */
const DRAWN = /scale-text|exchange|chart|plan|stand|engine|limits-figure|type-engine|trend/;

/** Returns each type size that a style sheet sets, with the selector before it. */
function setIn(css: string): { selector: string; size: string }[] {
  const bare = css.replaceAll(/\/\*[\s\S]*?\*\//g, "");
  return [...bare.matchAll(/([^{};]+)\{([^{}]*)\}/g)].flatMap(([, selector = "", body = ""]) =>
    [...body.matchAll(/font-size:\s*([^;]+);/g)].map(([, size = ""]) => ({
      selector: selector.trim(),
      size: size.trim(),
    })),
  );
}

/** Returns whether a size is of the table, follows another, or belongs to a drawing. */
function isKnown({ selector, size }: { selector: string; size: string }): boolean {
  const named = [...size.matchAll(/var\(--size-([a-z-]+)\)/g)].map(([, name = ""]) => name);
  if (named.length > 0) return named.every((name) => SIZES.includes(name));
  // The root's size is the screen's millimetre; a wall's parts follow what fills it.
  if (selector === "html" || size === "inherit" || /^(min\()?[\d.]+em\b/.test(size)) return true;
  return /^\d+px$/.test(size) && DRAWN.test(selector);
}

it("[VIS-41] sees a size that is not of the table", () => {
  for (const size of ["1.2rem", "18px", "var(--size-huge)", "clamp(1rem, 2vw, 2rem)"])
    expect(setIn(`.key { color: red; font-size: ${size}; }`).filter((s) => !isKnown(s))).toHaveLength(1);
});

it("[VIS-41] every type size is one of the table", () => {
  const files = readdirSync(FOLDER).filter((f) => f.endsWith(".css"));
  const all = files.flatMap((f) => setIn(readFileSync(FOLDER + f, "utf8")).map((s) => ({ f, ...s })));
  expect(all.length).toBeGreaterThan(100);
  expect(all.filter((s) => !isKnown(s))).toEqual([]);
  const tokens = readFileSync(`${FOLDER}tokens.css`, "utf8");
  const defined = [...tokens.matchAll(/--size-([a-z-]+):/g)].map(([, name]) => name);
  expect(new Set(defined)).toEqual(new Set(SIZES));
});
