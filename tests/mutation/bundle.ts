import { readdirSync, readFileSync } from "node:fs";
import { join, relative } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build } from "esbuild";
import { instrument, type Mutant } from "./instrument.ts";

const root = fileURLToPath(new URL("../..", import.meta.url));
const MUTATED =
  /^shared\/(aircraft|alerts|field|wheels|checks|conditions|defects|drills|engine|guard|leaves|overrides|plan|posts|power|propeller|readings|runUp|session|signals|stops|weather)\//;
/** Tests of the core's rules. Tests of sources, documents and records are left out, and slow ones. */
const TESTS = ["tests/spec", "tests/safety", "tests/seed", "tests/simulation", "tests/types", "tests/words"];
const LEFT_OUT = /(borders|ids|record|evidence|properties|removed|defined|circles|guide|asvs)\.test\.ts$/;

export interface Program {
  /** A function body in CommonJS with the free names `require`, `module`, `exports` and `$mutant`. */
  code: string;
  mutants: Mutant[];
}

/** Bundles the rules' tests with the core, and every mutant of the core behind its switch. */
export async function program(): Promise<Program> {
  const mutants: Mutant[] = [];
  const texts = new Map<string, string>();
  for (const file of files("shared").filter((f) => MUTATED.test(f))) {
    const made = instrument(readFileSync(join(root, file), "utf8"), file, mutants.length);
    mutants.push(...made.mutants);
    texts.set(file, made.text);
  }
  const tests = TESTS.flatMap(files).filter((f) => f.endsWith(".test.ts") && !LEFT_OUT.test(f));
  const built = await build({
    stdin: { contents: tests.map((f) => `import "./${f}";`).join("\n"), resolveDir: root, loader: "ts" },
    bundle: true,
    write: false,
    format: "cjs",
    platform: "node",
    target: "node20",
    packages: "external",
    logLevel: "error",
    plugins: [
      {
        name: "mutants",
        setup(builder) {
          builder.onLoad({ filter: /\.ts$/ }, ({ path }) => {
            const text = texts.get(relative(root, path)) ?? readFileSync(path, "utf8");
            const url = JSON.stringify(pathToFileURL(path).href);
            return { contents: text.replaceAll("import.meta.url", url), loader: "ts" };
          });
        },
      },
    ],
  });
  return { code: built.outputFiles[0]?.text ?? "", mutants };
}

function files(folder: string): string[] {
  const names = readdirSync(join(root, folder), { recursive: true, encoding: "utf8" });
  return names
    .filter((n) => n.endsWith(".ts"))
    .map((n) => `${folder}/${n}`)
    .sort();
}
