import { readFileSync } from "node:fs";

const SPEC = readFileSync(new URL("../../shared/SPEC.md", import.meta.url), "utf8");

const LINES = SPEC.split("\n").map((line) =>
  line
    .split("|")
    .slice(1, -1)
    .map((cell) => cell.trim()),
);

/** Returns the rows of the specification's table whose first heading this is, each as its cells. */
export function rowsOf(heading: string): string[][] {
  const begin = LINES.findIndex(([first]) => first === heading) + 2;
  const end = LINES.findIndex((cells, i) => i >= begin && cells.length === 0);
  return LINES.slice(begin, end);
}

export const yesNo = (is: boolean): string => (is ? "yes" : "no");
