import { readdirSync, readFileSync } from "node:fs";
import { expect, it } from "vitest";
import { ENGINE_SHAPES } from "../../web/ui/plan/engineShapes.ts";
import { MARKS, type Mark } from "./markTable.ts";

/** The style sheets of pages outside the live panels, of paper and of the tokens themselves. */
const ELSEWHERE =
  /^(devices|equipment|history|house|measured|pages|planning|print|register|study|tokens|types|types-edit)\.css$/;
const FOLDER = new URL("../../web/styles/", import.meta.url);

const rules = readdirSync(FOLDER)
  .filter((file) => !ELSEWHERE.test(file))
  .flatMap((file) => [
    ...readFileSync(new URL(file, FOLDER), "utf8")
      .replaceAll(/\/\*[\s\S]*?\*\//g, "")
      .matchAll(/([^{}]+)\{([^{}]*)\}/g),
  ])
  .flatMap(([, selectors = "", body = ""]) =>
    // A comma inside :is() separates no selectors.
    selectors.split(/,(?![^(]*\))/).map((s) => ({ selector: s.trim().replaceAll(/\s+/g, " "), body })),
  );

const marks: [string, Mark][] = Object.entries(MARKS);
const drawn = marks.flatMap(([id, mark]) => (mark.drawn ? [{ id, ...mark.drawn }] : []));

it("[VIS-8] no two marks look alike or mean the same", () => {
  const forms = marks.map(([, m]) => m.form);
  const meanings = marks.map(([, m]) => m.means);
  expect(new Set(forms).size).toBe(marks.length);
  expect(new Set(meanings).size).toBe(marks.length);
});

it.each(drawn)("[VIS-8] $id is drawn where the table says, and nowhere else", ({ id, by, in: held }) => {
  // A chain line and a row of dots are dashed too, and marks of their own.
  const dashes = id === "dashed" ? [...MARKS.chainLine.drawn.in, ...MARKS.dots.drawn.in] : [];
  // So are the stripes of an edge slanted as a hatching is.
  const own = id === "greyHatch" ? MARKS.stripedEdge.drawn.in : dashes;
  const found = rules.filter(({ body }) => by.test(body)).map(({ selector }) => selector);
  const known: readonly string[] = [...held, ...own];
  expect(found.filter((s) => !known.includes(s))).toEqual([]);
  expect(held.filter((s) => !found.includes(s))).toEqual([]);
});

it("[VIS-8] the table of web/README.md is the registry", () => {
  const readme = readFileSync(new URL("../../web/README.md", import.meta.url), "utf8");
  const rows = [...readme.matchAll(/^\| (.+?) +\| (.+?) +\|$/gm)].map(
    ([, form, means]) => `${form}: ${means}`,
  );
  expect(marks.map(([, m]) => `${m.form}: ${m.means}`).filter((row) => !rows.includes(row))).toEqual([]);
});

it("[VIS-8] every state of an engine has a silhouette of its own, and only a turning propeller is hatched", () => {
  const { none: _, ...shapes } = ENGINE_SHAPES;
  const forms = Object.values(shapes).map((s) => JSON.stringify(s));
  expect(forms.length).toBe(8);
  expect(new Set(forms).size).toBe(forms.length);
  /** A slanting stroke from lower left to upper right. */
  const hatched = (line = "") =>
    [...line.matchAll(/M(\d+) (\d+)L(\d+) (\d+)/g)].filter(
      ([, x = 0, y = 0, u = 0, v = 0]) => Number(u) > Number(x) && Number(v) < Number(y),
    ).length;
  const turning = Object.entries(shapes).filter(([, s]) => hatched("line" in s ? s.line : "") > 2);
  expect(turning.map(([id]) => id)).toEqual(["cranking", "caught", "stable"]);
});
