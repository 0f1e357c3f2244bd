import { readFileSync } from "node:fs";
import { builtinModules } from "node:module";
import { expect, it } from "vitest";
import { runtimePackages } from "../../server/scripts/release.mjs";

const ROOT = new URL("../../", import.meta.url);

it("[OPS-21] the archive holds every package that the built server imports, and none that only builds or tests", () => {
  const held = new Set(runtimePackages().map((path) => path.replace("node_modules/", "")));
  const imported = ["main.js", "sqlite-thread-main.js", "paper-main.js"].flatMap((file) => {
    const source = readFileSync(new URL(`server/dist/${file}`, ROOT), "utf8");
    const found = source.matchAll(/(?:^|\n)\s*import\s[^;]*?from "([^".][^"]*)"|import\("([^".][^"]*)"\)/g);
    return [...found].map(([, name = "", other = ""]) => name || other);
  });
  const packages = new Set(
    imported
      .filter((name) => !name.startsWith("node:") && !builtinModules.includes(name.split("/")[0] ?? ""))
      .map((name) =>
        name
          .split("/")
          .slice(0, name.startsWith("@") ? 2 : 1)
          .join("/"),
      ),
  );
  expect(packages.size).toBeGreaterThan(15);
  expect([...packages].filter((name) => !held.has(name))).toEqual([]);
  // The commands of OPERATING.md run from their sources.
  expect(held).toContain("tsx");
  for (const name of ["vite", "typescript", "prisma", "vitest", "playwright-core"])
    expect(held).not.toContain(name);
});
