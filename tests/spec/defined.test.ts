import { readFileSync } from "node:fs";
import { basename, join, posix } from "node:path";
import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, it } from "vitest";
import { conditionOf } from "../../shared/conditions/all.ts";
import { CONDITION_IDS } from "../../shared/protocol/conditions.ts";
import { SIGNAL_KINDS } from "../../shared/protocol/signals.ts";
import { signalOf } from "../../shared/signals/all.ts";
import { errorsOf } from "./compiled.ts";
import { removalsOfEntries } from "./removals.ts";

const root = fileURLToPath(new URL("../..", import.meta.url));
const textOf = (file: string) => readFileSync(join(root, file), "utf8");

/** Kinds whose ids are the keys of their English words, and whose definitions are the exports of their topics' files. */
const KINDS = [
  { kinds: "conditions", ids: CONDITION_IDS, definitionOf: conditionOf },
  { kinds: "signals", ids: SIGNAL_KINDS, definitionOf: signalOf },
] as const;

interface Copies {
  /** The copy of the registry in which the compiler must find the error. */
  registry: string;
  texts: Map<string, string>;
}

/** Returns the text of a file that imports a copy instead of another file. */
function importing(file: string, other: string, copy: string): string {
  const from = posix.relative(posix.dirname(file), posix.dirname(other)) || ".";
  const path = (name: string) => `"${from.startsWith(".") ? from : `./${from}`}/${basename(name)}"`;
  const text = textOf(file);
  expect(text).toContain(path(other));
  return text.replace(path(other), path(copy));
}

const named = (file: string, without: string) => file.replace(/\.ts$/, `.without.${without}.ts`);

/** Returns copies of a registry and of one file of definitions, from which one definition is missing. */
function withoutDefinition(kinds: string, file: string, id: string): Copies {
  const registry = `shared/${kinds}/all.ts`;
  const [copy, copied] = [named(file, `${kinds}.${id}`), named(registry, `definition.${id}`)];
  const hidden = textOf(file).replace(`export const ${id}`, `const ${id}`);
  return {
    registry: copied,
    texts: new Map([
      [copy, hidden],
      [copied, importing(registry, file, copy)],
    ]),
  };
}

/** Returns copies of a registry, of the ids and of the English words, from which the words of one id are missing. */
function withoutWords(kinds: string, id: string): Copies {
  const [words, ids, registry] = [
    `shared/words/en/${kinds}.ts`,
    `shared/protocol/${kinds}.ts`,
    `shared/${kinds}/all.ts`,
  ];
  const [wordsCopy, idsCopy, copied] = [words, ids, registry].map((file) => named(file, `words.${id}`)) as [
    string,
    string,
    string,
  ];
  const removal = removalsOfEntries(words, textOf(words)).find(({ entry }) => entry === `${kinds}.${id}`);
  if (!removal) throw new Error(`${words} has no words of ${id}`);
  return {
    registry: copied,
    texts: new Map([
      [wordsCopy, removal.text],
      [idsCopy, importing(ids, words, wordsCopy)],
      [copied, importing(registry, ids, idsCopy)],
    ]),
  };
}

const definitionFiles = (kinds: string) =>
  [...textOf(`shared/${kinds}/all.ts`).matchAll(/import \* as \w+ from "([^"]+)"/g)].map(([, path = ""]) =>
    posix.join("shared", kinds, path),
  );
const definitionsIn = (file: string) =>
  [...textOf(file).matchAll(/^export const (\w+)/gm)].map(([, id = ""]) => id);

const cases = KINDS.flatMap(({ kinds, ids }) => [
  ...definitionFiles(kinds).flatMap((file) =>
    definitionsIn(file).map((id): [string, Copies] => [`${file} ${id}`, withoutDefinition(kinds, file, id)]),
  ),
  ...ids.map((id): [string, Copies] => [`words of ${kinds} ${id}`, withoutWords(kinds, id)]),
]);

describe.each(KINDS)("the definitions of $kinds", ({ kinds, ids, definitionOf }) => {
  it("are one for each id, and none besides", () => {
    expect(definitionFiles(kinds).flatMap(definitionsIn).sort()).toEqual([...ids].sort());
    for (const id of ids) expect((definitionOf as (id: string) => unknown)(id)).toBeDefined();
  });
});

describe("the registry does not compile", () => {
  let errors: Map<string, string[]>;
  beforeAll(() => {
    const registries = KINDS.map(({ kinds }) => `shared/${kinds}/all.ts`);
    errors = errorsOf(
      root,
      new Map([
        ...registries.map((file): [string, string] => [named(file, "nothing"), textOf(file)]),
        ...cases.flatMap(([, { texts }]) => [...texts]),
      ]),
    );
    for (const file of registries) expect(errors.get(named(file, "nothing"))).toEqual([]);
  }, 600_000);

  it.each(cases)("without %s", (_, { registry }) => {
    // Other lines of the registry may fail too; the table itself must.
    expect(errors.get(registry)?.join("\n")).toContain("does not satisfy the expected type");
  });
});
