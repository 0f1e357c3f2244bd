// Builds everything that the server or the checks need from the sources.
// Usage: node server/scripts/prepare.mjs client|web|server …
import { mkdirSync, writeFileSync } from "node:fs";
import { readFile } from "node:fs/promises";
import { join, relative } from "node:path";
import { pathToFileURL } from "node:url";
import { PROVIDERS, schemaFor } from "../../prisma/providers.mjs";
import { root, unlessFresh } from "./fresh.mjs";
import { fail, run } from "./run.mjs";

const LOCK = "package-lock.json";
const SCRIPTS = "server/scripts";
const bin = (path) => join(root, "node_modules", path);

const parts = {
  /** The typed database clients, one per provider, from one model. */
  client: {
    inputs: ["prisma/schema.prisma", "prisma/providers.mjs", "prisma/prisma.config.ts", LOCK, SCRIPTS],
    output: "prisma/generated/postgresql/client.ts",
    work: generateClients,
  },
  /** The panels, as static files. */
  web: {
    inputs: ["web", "shared", LOCK, SCRIPTS],
    output: "web/dist/index.html",
    work: () => run(process.execPath, [bin("vite/bin/vite.js"), "build", "web", "--logLevel", "warn"]),
  },
  /** The server as one file, which starts several times faster than the sources. */
  server: {
    inputs: ["server", "shared", "prisma", "seed", LOCK, SCRIPTS],
    output: "server/dist/main.js",
    work: bundleServer,
  },
};

async function generateClients() {
  const generated = join(root, "prisma", "generated");
  mkdirSync(generated, { recursive: true });
  for (const provider of PROVIDERS) {
    const schema = join(generated, `${provider}.prisma`);
    writeFileSync(schema, schemaFor(provider));
    const generate = [bin("prisma/build/index.js"), "generate", "--schema", schema];
    await run(process.execPath, [...generate, "--config", "prisma/prisma.config.ts"], {
      // Prisma would first download its schema engine, which generating never runs.
      PRISMA_SCHEMA_ENGINE_BINARY: join(root, "prisma", "no-schema-engine.sh"),
      PRISMA_HIDE_UPDATE_MESSAGE: "1",
      CHECKPOINT_DISABLE: "1",
    });
  }
}

/** Builds the named parts, in order, if they are missing or their sources have changed. */
export async function prepare(...names) {
  for (const name of names) {
    const did = await unlessFresh({ name, ...parts[name] });
    if (did) console.log(`chockside: ${name} prepared`);
  }
}

async function bundleServer() {
  const { build } = await import("esbuild");
  const outfile = join(root, "server", "dist", "main.js");
  await build({
    entryPoints: ["main.ts", "store/sqlite-thread-main.ts", "print/paper-main.ts"].map((source) =>
      join(root, "server", source),
    ),
    entryNames: "[name]",
    outdir: join(root, "server", "dist"),
    bundle: true,
    packages: "external",
    platform: "node",
    format: "esm",
    target: "node20.19",
    sourcemap: true,
    logLevel: "warning",
    plugins: [ownUrls(outfile)],
  });
  // Tells Node the module kind, which it would otherwise guess.
  writeFileSync(join(root, "server", "dist", "package.json"), `{ "type": "module" }\n`);
}

/** Keeps `import.meta.url` the address of the source file, so that a source finds the files beside it. */
function ownUrls(outfile) {
  return {
    name: "own-urls",
    setup(build) {
      build.onLoad({ filter: /\.ts$/ }, async ({ path }) => {
        const from = relative(join(outfile, ".."), path).replaceAll("\\", "/");
        const source = await readFile(path, "utf8");
        const url = `new URL(${JSON.stringify(from)}, import.meta.url).href`;
        return { contents: source.replaceAll("import.meta.url", url), loader: "ts" };
      });
    },
  };
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href)
  await prepare(...process.argv.slice(2)).catch(fail);
