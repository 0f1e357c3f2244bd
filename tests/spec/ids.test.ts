import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { faults, idsIn, rulesIn } from "./ids.ts";

const root = fileURLToPath(new URL("../..", import.meta.url));

describe("shared/SPEC.md and the tests", () => {
  it("agree: every rule has a test, every id in a title is a rule, no rule is defined twice", () => {
    const specification = readFileSync(join(root, "shared/SPEC.md"), "utf8");
    const files = readdirSync(join(root, "tests"), { recursive: true, encoding: "utf8" })
      .filter((file) => /\.test\.tsx?$/.test(file))
      .sort();
    const tests = new Map(
      files.map((file) => [file, idsIn(file, readFileSync(join(root, "tests", file), "utf8"))]),
    );
    expect(rulesIn(specification).length).toBeGreaterThan(0);
    expect(faults(specification, tests)).toEqual([]);
  });
});

describe("reading rule ids", () => {
  // Built here, so that this file's own text contains no id of a rule.
  const mark = (...ids: string[]) => `[${ids.join(", ")}]`;
  const idsOf = (source: string) => idsIn("planted.test.tsx", source);

  it("finds the rules of a specification by the head of their line", () => {
    const text =
      "# Rules\n- **CLR-3** A clearance…\n- **HLD-12** A hold…\n- see **CLR-4**\n  - **CLR-5** nested\n";
    expect(rulesIn(text)).toEqual(["CLR-3", "HLD-12"]);
  });

  it("finds ids in titles of tests and groups, alone or listed, whatever the quotes", () => {
    expect(idsOf(`it("${mark("CLR-3")} one", () => {});`)).toEqual(["CLR-3"]);
    expect(idsOf(`describe('${mark("CLR-3", "HLD-2")} two', () => {});`)).toEqual(["CLR-3", "HLD-2"]);
    expect(idsOf(`test(\`${mark("FIR-1")} \${engine}\`, () => {});`)).toEqual(["FIR-1"]);
    expect(idsOf(`it.concurrent("${mark("CLR-3")} " + name, async () => <b />);`)).toEqual(["CLR-3"]);
  });

  it("finds ids in the titles and rows of tables", () => {
    expect(idsOf(`it.each<Row>([["("]])("${mark("CLR-3")} %s", (row) => {});`)).toEqual(["CLR-3"]);
    expect(idsOf(`it.each([["${mark("CLR-4")} late", 1]])("%s", () => {});`)).toEqual(["CLR-4"]);
  });

  it("does not take comments, bodies or other calls for titles", () => {
    expect(idsOf(`// it("${mark("CLR-3")} gone", () => {});`)).toEqual([]);
    expect(idsOf(`it("one", () => { expect("${mark("CLR-3")}").toBe(1); });`)).toEqual([]);
    expect(idsOf(`say("${mark("CLR-3")}");`)).toEqual([]);
  });

  it("names every fault", () => {
    const specification = "- **CLR-1** a\n- **CLR-2** b\n- **CLR-2** c\n";
    expect(faults(specification, new Map([["a.test.ts", ["CLR-1", "HLD-9"]]]))).toEqual([
      "CLR-2 is defined twice",
      "CLR-2 has no test",
      "a.test.ts names HLD-9, which is no rule",
    ]);
    expect(faults("- **CLR-1** a\n", new Map([["a.test.ts", ["CLR-1"]]]))).toEqual([]);
  });
});
