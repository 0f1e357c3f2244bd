import { readdirSync, readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { inlineWords } from "./inline.ts";

const SOURCES = readdirSync("web", { recursive: true, encoding: "utf8" })
  .filter((file) => /\.tsx?$/.test(file) && !/^(dist|words)\//.test(file))
  .map((file) => `web/${file}`);

it("[LNG-3] sees words in JSX, in what is read aloud, and sentences in strings", () => {
  const seen = (source: string) => inlineWords("a.tsx", source).map((i) => i.words);
  expect(seen("const a = <p>Hold</p>;")).toEqual(["Hold"]);
  expect(seen('const a = <i aria-label="Engines" />;')).toEqual(["Engines"]);
  expect(seen('const a = <i aria-label={n ? "Engines" : x} />;')).toEqual(["Engines"]);
  // biome-ignore lint/suspicious/noTemplateCurlyInString: a source that holds a template
  expect(seen("const a = <i title={`Number ${n}`} />;")).toEqual(["Number …"]);
  expect(seen('const a = cond ? "not yet said" : null;')).toEqual(["not yet said"]);
  // biome-ignore lint/suspicious/noTemplateCurlyInString: a source that holds a template
  expect(seen("const a = `${n} has been read`;")).toEqual(["… has been read"]);
  expect(seen('const a = <i className="one two" data-is="three four">{n}</i>;')).toEqual([]);
  expect(seen('import a from "the file.ts"; const b = "yes";')).toEqual([]);
});

it("[LNG-3] no source of the panels holds a sentence of its own", () => {
  const found = SOURCES.flatMap((file) => {
    const words = inlineWords(file, readFileSync(file, "utf8"));
    return words.map((w) => `${file}:${w.line} ${w.words}`);
  });
  expect(SOURCES.length).toBeGreaterThan(100);
  expect(found).toEqual([]);
});
