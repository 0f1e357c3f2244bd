import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { circlesIn, importsOf } from "./circles.ts";

const root = fileURLToPath(new URL("../..", import.meta.url));
const FOLDERS = ["shared", "server", "web", "seed", "tests", "prisma"];
const SOURCE = /\.m?tsx?$|\.mjs$/;
const MADE = /(^|\/)(dist|generated)\//;

const importsOfAll = (sources: Record<string, string>) =>
  new Map(Object.entries(sources).map(([file, source]) => [file, importsOf(file, source)]));

describe("files that import each other", () => {
  it("are none: no file imports itself through others, types included", () => {
    const files = FOLDERS.flatMap((folder) =>
      readdirSync(join(root, folder), { recursive: true, encoding: "utf8" }).map((file) =>
        join(folder, file),
      ),
    ).filter((file) => SOURCE.test(file) && !MADE.test(file));
    const imports = importsOfAll(
      Object.fromEntries(files.map((file) => [file, readFileSync(join(root, file), "utf8")])),
    );
    // The imports are found as the program follows them: the server's first file reaches the core of a session.
    expect(reached(imports, "server/main.ts")).toContain("shared/session/step.ts");
    expect(circlesIn(imports).map((circle) => circle.join(" → "))).toEqual([]);
  });

  it("are found in a small circle of each kind of import", () => {
    for (const [kind, line] of Object.entries({
      value: `import { a } from "./a.ts";`,
      type: `import type { A } from "./a.ts";`,
      "type among values": `import { type A } from "./a.ts";`,
      effect: `import "./a.ts";`,
      "re-export": `export { a } from "./a.ts";`,
      "re-export of all": `export * from "./a.ts";`,
      dynamic: `export const a = () => import("./a.ts");`,
      "type of a module": `export type A = typeof import("./a.ts");`,
    })) {
      const imports = importsOfAll({
        "x/a.ts": `import { b } from "../y/b.ts";`,
        "y/b.ts": `import { c } from "../x/c.ts";`,
        "x/c.ts": line,
      });
      expect(circlesIn(imports), kind).toEqual([["x/a.ts", "y/b.ts", "x/c.ts", "x/a.ts"]]);
    }
  });

  it("are not seen where two files import a third, or a comment names one", () => {
    const imports = importsOfAll({
      "a.ts": `import { b } from "./b.ts"; import { c } from "./c.ts"; export const d = b + c;`,
      "b.ts": `import { c } from "./c.ts"; export const b = c;`,
      "c.ts": `// import { a } from "./a.ts";\nexport const c = 'import "./a.ts"';`,
    });
    expect(circlesIn(imports)).toEqual([]);
  });
});

function reached(imports: ReadonlyMap<string, readonly string[]>, from: string): Set<string> {
  const seen = new Set([from]);
  for (const file of seen) for (const next of imports.get(file) ?? []) seen.add(next);
  return seen;
}
