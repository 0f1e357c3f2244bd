import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, it } from "vitest";
import { errorsOf } from "./compiled.ts";
import { type Removal, removalsOfLeaves, removalsOfTables } from "./removals.ts";

const root = fileURLToPath(new URL("../..", import.meta.url));

/** A missing entry of these tables would lower safety, so each is total by its type. */
const REGISTRIES = [
  "shared/alerts/kinds.ts ALERTS",
  "shared/session/permissions.ts ACTIONS",
  "shared/words/en/asks.ts asks",
  "shared/words/en/asks.ts choices",
  "shared/words/en/refusals.ts refusals",
];
const SPANISH = /^(shared|web)\/words\/es\//;

const sources = ["shared", "server", "web"]
  .flatMap((folder) =>
    readdirSync(join(root, folder), { recursive: true, encoding: "utf8" }).map((file) => join(folder, file)),
  )
  .filter((file) => /\.tsx?$/.test(file) && !/(^|\/)dist\//.test(file))
  .sort();
const textOf = (file: string) => readFileSync(join(root, file), "utf8");

/** The Spanish catalogue has the type of the English one, so its entries are required at every depth. */
const removals = new Map(
  sources
    .map((file): [string, Removal[]] => [
      file,
      SPANISH.test(file) ? removalsOfLeaves(file, textOf(file)) : removalsOfTables(file, textOf(file)),
    ])
    .filter(([, found]) => found.length > 0),
);
const copyOf = (file: string, n: number | string) => file.replace(/\.(?=tsx?$)/, `.without.${n}.`);

let errors: Map<string, string[]>;
beforeAll(() => {
  const copies = new Map<string, string>();
  for (const [file, without] of removals) {
    copies.set(copyOf(file, "nothing"), textOf(file));
    for (const [n, { text }] of without.entries()) copies.set(copyOf(file, n), text);
  }
  errors = errorsOf(root, copies);
}, 600_000);

describe("a removal", () => {
  const table = (type: string) => `export const t: ${type} = {\n  a: 1,\n  "b.c": { d: [2], e: 3 },\n};\n`;
  const leaves = (source: string) => removalsOfLeaves("x.ts", source).map(({ entry }) => entry);
  const tables = (source: string) => removalsOfTables("x.ts", source).map(({ entry }) => entry);

  it("takes one entry out, and its comma", () => {
    expect(
      removalsOfTables("x.ts", "const t: Record<K, number> = { a: 1, b: 2 };").map((r) => r.text),
    ).toEqual(["const t: Record<K, number> = {  b: 2 };", "const t: Record<K, number> = { a: 1,  };"]);
  });

  it("is made for each entry of a table that is total by its type, however the type is written", () => {
    for (const type of ["Record<K, X>", "Readonly<Record<K, X>>", "{ [Id in K]: X }"])
      expect(tables(table(type)), type).toEqual(["t.a", "t.b.c"]);
    expect(tables("export const t = { a: 1 } as const satisfies Record<K, X>;")).toEqual(["t.a"]);
    expect(tables("const f = () => g({ a: 1 } satisfies Record<K, X>);")).toEqual([".a"]);
  });

  it("is not made for a table that may lack entries", () => {
    for (const type of ["Partial<Record<K, X>>", "Record<string, X>", "{ [Id in K]?: X }", "Shape"])
      expect(tables(table(type)), type).toEqual([]);
  });

  it("is made at every depth of a catalogue", () => {
    expect(leaves(table("Words"))).toEqual(["t.a", "t.b.c", "t.b.c.d", "t.b.c.e"]);
    expect(leaves(table("Record<string, X>"))).toEqual([]);
  });

  it("is found by the compiler where the table is total, and only there", () => {
    const found = errorsOf(
      root,
      new Map([
        ["shared/planted.total.ts", "export const t: Record<'a' | 'b', number> = { a: 1 };"],
        ["shared/planted.whole.ts", "export const t: Record<'a' | 'b', number> = { a: 1, b: 2 };"],
        [
          "shared/planted.part.ts",
          "const u = 1;\nexport const t: Partial<Record<'a' | 'b', number>> = { a: 1 };",
        ],
      ]),
    );
    expect(Object.fromEntries(found)).toMatchObject({
      "shared/planted.total.ts": [expect.stringContaining("'b' is missing")],
      "shared/planted.whole.ts": [],
      "shared/planted.part.ts": [],
    });
  });
});

describe("an entry taken out of a table", () => {
  it("is tried for each registry that is total by its type", () => {
    const tried = [...removals].flatMap(([file, without]) => without.map(({ entry }) => `${file} ${entry}`));
    expect(REGISTRIES.filter((table) => !tried.some((entry) => entry.startsWith(`${table}.`)))).toEqual([]);
  });

  it.each([...removals])("is an error: %s", (file, without) => {
    expect(errors.get(copyOf(file, "nothing"))).toEqual([]);
    const passed = without.filter((_, n) => errors.get(copyOf(file, n))?.length === 0);
    expect(passed.map(({ entry }) => entry)).toEqual([]);
  });
});
