import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, it } from "vitest";
import { environmentSchema } from "../../server/config.ts";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));
const text = (path: string) => readFileSync(join(ROOT, path), "utf8");
const guide = text("server/OPERATING.md");
const found = (pattern: RegExp, source = guide) =>
  [...new Set([...source.matchAll(pattern)].map(([, first = ""]) => first))].sort();

/** Returns every TypeScript source of a folder, as one text. */
const sources = (folder: string) =>
  readdirSync(join(ROOT, folder), { recursive: true, encoding: "utf8" })
    .filter((name) => name.endsWith(".ts"))
    .map((name) => text(join(folder, name)))
    .join("\n");

describe("[OPS-25] the operator's guide", () => {
  it("gives each setting the default that the program has", () => {
    const rows = new Map(
      [...guide.matchAll(/^\| `([A-Z_]+)` +\| (.+?) +\|/gm)].map(([, name = "", cell = ""]) => [name, cell]),
    );
    for (const [name, schema] of Object.entries(environmentSchema.shape)) {
      const { data: value } = schema.safeParse(undefined);
      const cell = rows.get(name);
      if (value === undefined || (Array.isArray(value) && value.length === 0))
        expect([name, cell]).toEqual([
          name,
          expect.stringMatching(/^(none$|made |evidence-key|0\.0\.0\.0;)/),
        ]);
      else expect([name, cell]).toEqual([name, String(value)]);
    }
  });

  it("names only commands that package.json has, and the words that they take", () => {
    const { scripts } = JSON.parse(text("package.json"));
    const named = found(/npm run (?:--silent )?([a-z]+)/g);
    expect(named).toContain("backup");
    expect(named.filter((name) => !(name in scripts))).toEqual([]);
    const house = `${text("server/house-cli.ts")}\n${sources("server/house")}`;
    expect(
      found(/npm run house -- ([a-z]+)/g).filter((w) => !house.includes(`npm run house -- ${w}`)),
    ).toEqual([]);
    for (const name of ["people", "retention"])
      for (const word of found(new RegExp(`npm run ${name} -- ([a-z]+)`, "g")))
        expect(text(`server/${name}-cli.ts`)).toContain(`npm run ${name} -- ${word}`);
  });

  it("names only files and parts of itself that there are", () => {
    const files = found(/`(server\/[\w./-]+)`/g).filter((file) => !file.startsWith("server/dist/"));
    expect(files).toContain("server/compose.yaml");
    expect(files.filter((file) => !existsSync(join(ROOT, file)))).toEqual([]);
    const anchors = found(/^#+ (.+)$/gm).map((heading) => heading.toLowerCase().replaceAll(" ", "-"));
    expect(found(/\]\(#([^)]+)\)/g).filter((anchor) => !anchors.includes(anchor))).toEqual([]);
  });

  it("has every metric of the server, and no other", () => {
    const metrics = found(/"(chockside_[a-z_]+)"/g, sources("server/telemetry"));
    expect(metrics).toContain("chockside_ready");
    expect(found(/`(chockside_[a-z_]+?)(?:_count)?[`{ ]/g)).toEqual(metrics);
  });
});
