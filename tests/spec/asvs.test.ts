import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { expect, it } from "vitest";
import { rulesIn } from "./ids.ts";

const read = (path: string) => readFileSync(fileURLToPath(new URL(`../../${path}`, import.meta.url)), "utf8");

/**
 * OWASP ASVS 5.0.0: the number of requirements of levels 1 and 2 in each section. In every such section they come
 * first, and those of level 3 alone follow.
 */
const ASKED =
  "1.1:2 1.2:9 1.3:11 1.4:3 1.5:2 2.1:3 2.2:3 2.3:4 2.4:1 3.2:2 3.3:4 3.4:6 3.5:5 3.7:2 4.1:3 4.2:1 4.3:2 4.4:4 " +
  "5.1:1 5.2:3 5.3:2 5.4:3 6.1:3 6.2:12 6.3:4 6.4:4 6.5:5 6.6:3 6.8:4 7.1:3 7.2:4 7.3:2 7.4:5 7.5:2 7.6:2 8.1:2 " +
  "8.2:3 8.3:1 8.4:1 9.1:3 9.2:4 10.1:2 10.2:2 10.3:4 10.4:11 10.5:5 10.6:2 10.7:3 11.1:2 11.2:3 11.3:3 11.4:4 " +
  "11.5:1 11.6:1 12.1:3 12.2:2 12.3:4 13.1:1 13.2:5 13.3:2 13.4:5 14.1:2 14.2:4 14.3:3 15.1:3 15.2:3 15.3:7 16.1:1 " +
  "16.2:5 16.3:4 16.4:3 16.5:3 17.1:1 17.2:4 17.3:2";

const asked = ASKED.split(" ").flatMap((entry) => {
  const [section, count] = entry.split(":");
  return Array.from({ length: Number(count) }, (_, i) => `${section}.${i + 1}`);
});

/** Returns the numbers at the head of a row or line, with spans written out. */
function numbersOf(head: string): string[] {
  return head.split(",").flatMap((part) => {
    const [from = "", to = from] = part.trim().split(" to ");
    const [first, last] = [asked.indexOf(from), asked.indexOf(to)];
    return first < 0 || last < first ? [`${from} to ${to}?`] : asked.slice(first, last + 1);
  });
}

it("[SEC-16] server/SECURITY.md answers each requirement of ASVS 5.0.0, levels 1 and 2, once, by rules that there are", () => {
  // From memory: 70 of level 1 and 183 of level 2.
  expect(asked).toHaveLength(253);
  const text = read("server/SECURITY.md");
  const rows = [...text.matchAll(/^(?:\| )?(\d+\.\d+\.\d+[^|:]*?) *[|:](.*)$/gm)];
  expect(rows.flatMap(([, head = ""]) => numbersOf(head)).sort()).toEqual([...asked].sort());
  for (const [line] of rows) expect(line).toMatch(/\*\*(Met|Part|Not met|n\/a)/);
  const rules = new Set(rulesIn(read("shared/SPEC.md")));
  const cited = [...text.matchAll(/\[([^\]]+)\](?!\()/g)].flatMap(
    ([, ids = ""]) => ids.match(/[A-Z]{3}-\d+/g) ?? [],
  );
  expect(cited.length).toBeGreaterThan(100);
  expect(cited.filter((id) => !rules.has(id))).toEqual([]);
});
