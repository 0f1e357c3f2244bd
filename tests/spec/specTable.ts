import { readFileSync } from "node:fs";

const SPEC = readFileSync(new URL("../../shared/SPEC.md", import.meta.url), "utf8");

/** Returns the rows of the specification's table whose first heading this is, each as its cells. */
export function rowsOf(heading: string): string[][] {
  const [table = ""] = SPEC.slice(SPEC.indexOf(`\n| ${heading} |`) + 1).split("\n\n", 1);
  const [, , ...rows] = table.split("\n");
  return rows.map((row) =>
    row
      .split("|")
      .slice(1, -1)
      .map((cell) => cell.trim()),
  );
}

export const yesNo = (is: boolean): string => (is ? "yes" : "no");
