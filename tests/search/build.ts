import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join, relative } from "node:path";
import { fileURLToPath } from "node:url";
import { build, type Plugin } from "esbuild";
import type { Mutant } from "./mutants.ts";

type SearchModule = typeof import("./search.ts");
type AircraftModule = typeof import("./aircraft/search.ts");
/** One place of the core and what stands there instead. */
type Change = Pick<Mutant, "name" | "file" | "find" | "replace">;

const root = fileURLToPath(new URL("../..", import.meta.url));

/**
 * Returns the search bundled with the core that it searches; with a mutant, the core is broken in that one place.
 * @throws Error unless the text that a mutant replaces occurs exactly once in its file
 */
export function searchOf(mutant?: Change): Promise<SearchModule> {
  return built("tests/search/search.ts", mutant);
}

/** Does the same for the search of an aircraft with several sessions. */
export function aircraftSearchOf(mutant?: Change): Promise<AircraftModule> {
  return built("tests/search/aircraft/search.ts", mutant);
}

async function built<Module>(entry: string, mutant: Change | undefined): Promise<Module> {
  const folder = mkdtempSync(join(tmpdir(), "chockside-search-"));
  const outfile = join(folder, "search.cjs");
  try {
    await build({
      entryPoints: [join(root, entry)],
      bundle: true,
      format: "cjs",
      platform: "node",
      target: "node20",
      logLevel: "error",
      outfile,
      plugins: mutant ? [breaking(mutant)] : [],
    });
    return createRequire(import.meta.url)(outfile) as Module;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Returns the text of a file with a mutant's change. */
export function broken(mutant: Change): string {
  const text = readFileSync(join(root, mutant.file), "utf8");
  const times = text.split(mutant.find).length - 1;
  if (times !== 1) {
    throw new Error(`mutant ${mutant.name}: its text stands ${times} times in ${mutant.file}, not once`);
  }
  return text.replace(mutant.find, () => mutant.replace);
}

function breaking(mutant: Change): Plugin {
  const contents = broken(mutant);
  return {
    name: "mutant",
    setup(builder) {
      builder.onLoad({ filter: /\.ts$/ }, ({ path }) =>
        relative(root, path) === mutant.file ? { contents, loader: "ts" } : undefined,
      );
    },
  };
}
