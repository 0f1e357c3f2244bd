import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { recordFaults, rowsIn, triedIn } from "./record.ts";

const text = (path: string) => readFileSync(fileURLToPath(new URL(`../../${path}`, import.meta.url)), "utf8");
const read = (file: string) => text(`shared/${file}`);
const record = read("SAFETY.md");
const upTo = (n: number) => Array.from({ length: n }, (_, i) => i + 1);

/** Returns the titles of the tests in a source. */
const titles = (source: string) => [...source.matchAll(/^ *it\("([^"]*)"/gm)].map(([, title = ""]) => title);

describe("shared/SAFETY.md", () => {
  it("[SAF-1] every row has an id of its own and names rules that exist, or says Not covered", () => {
    expect(recordFaults(record, read("SPEC.md"))).toEqual([]);
  });

  it("[SAF-1] all fifteen control actions and all 33 invariants have rows", () => {
    const ids = rowsIn(record).map((r) => r.id);
    const actions = new Set(ids.flatMap((id) => /^UCA-(U\d+)/.exec(id)?.[1] ?? []));
    expect(actions).toEqual(new Set(upTo(15).map((n) => `U${n}`)));
    expect(ids.filter((id) => id.startsWith("INV-"))).toEqual(upTo(33).map((n) => `INV-${n}`));
  });

  it("[SAF-2] each row that says where somebody tries to get round it has a test there with its id", () => {
    const tried = triedIn(record);
    expect(tried.map(({ id }) => id).sort()).toEqual(
      ["FME-24", ...["1g", "1k", "1l", "3d", "5f", "7b", "8c", "11d", "12b"].map((u) => `UCA-U${u}`)].sort(),
    );
    for (const { id, file } of tried)
      expect(
        titles(text(file)).some((title) => title.includes(` ${id}: `)),
        id,
      ).toBe(true);
  });

  it("[SAF-1] no line of its tables goes unread", () => {
    const lines = record.split("\n").filter((line) => /^\| *[A-Z]/.test(line));
    expect(rowsIn(record)).toHaveLength(lines.length);
  });
});

describe("reading a hazard record", () => {
  const rule = (...parts: (string | number)[]) => parts.join("-");
  const spec = `- **${rule("CLR", 1)}** a\n`;

  it("names every fault", () => {
    const rows = [
      `| UCA-U1a | x | ${rule("CLR", 1)} |`,
      "| UCA-U1b | x | |",
      `| UCA-U1b | x | ${rule("CLR", 2)} |`,
      "| FME-1 | x | Not covered: why |",
      "| FME-2 | x | HAZ-1 |",
    ].join("\n");
    expect(recordFaults(rows, spec)).toEqual([
      "UCA-U1b is there twice",
      "UCA-U1b names no rule",
      `UCA-U1b names ${rule("CLR", 2)}, which is no rule`,
      "FME-2 names no rule",
    ]);
  });
});
