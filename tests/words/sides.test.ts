import { readdirSync, readFileSync } from "node:fs";
import { expect, it } from "vitest";

/** Properties and values that name a side of the page instead of the start or end of its lines. */
const SIDED =
  /^\s*(?:(?:margin|padding|border|scroll-(?:margin|padding))-(?:left|right)\b|(?:left|right|float|clear):|border-(?:top|bottom)-(?:left|right)-radius|text-align: (?:left|right);)/;

/** Four lengths of which the second and the fourth differ: the left and the right side are not equal. */
const UNEVEN = /^\s*(?:margin|padding|inset|border-width|border-radius): (\S+) (\S+) (\S+) (\S+);/;

function sided(css: string): string[] {
  return css.split("\n").flatMap((line, i) => {
    const four = UNEVEN.exec(line);
    return SIDED.test(line) || (four && four[2] !== four[4]) ? [`${i + 1}: ${line.trim()}`] : [];
  });
}

it("[LNG-4] sees a side that is named", () => {
  for (const line of ["margin-left: 1px;", "  right: 0;", "text-align: left;", "padding: 1px 2px 1px 3px;"])
    expect(sided(line)).toHaveLength(1);
  for (const line of ["margin-inline-start: 1px;", "padding: 1px 2px 3px 2px;", "grid-area: left;"])
    expect(sided(line)).toEqual([]);
});

it("[LNG-4] no style names a side: what stands before a line stands before it in every direction of writing", () => {
  const styles = readdirSync("web/styles").filter((f) => f.endsWith(".css"));
  expect(styles.length).toBeGreaterThan(10);
  const found = styles.flatMap((f) =>
    sided(readFileSync(`web/styles/${f}`, "utf8")).map((line) => `${f}:${line}`),
  );
  expect(found).toEqual([]);
});
