import { fork } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { build } from "esbuild";

/** A bundled worker finds packages from here. */
const MODULES = fileURLToPath(new URL("../../node_modules", import.meta.url));

/** Seeds from `first` on, and the number that a process receives at a time. */
export interface Seeds {
  first: number;
  count: number;
  batch: number;
  processes: number;
}

/**
 * Lets several processes of one worker run the seeds. A worker answers each message `[first, count]` with one message;
 * `said` is called with it before the process receives its next seeds.
 * @throws Error when a process ends in any other way than by having nothing left to do
 */
export async function runApart<Said>(
  worker: URL,
  { first, count, batch, processes }: Seeds,
  said: (by: Said) => void,
): Promise<void> {
  const folder = mkdtempSync(join(MODULES, ".worker-"));
  let next = first;
  const one = (file: string) =>
    new Promise<void>((done, failed) => {
      const child = fork(file, { execArgv: ["--max-semi-space-size=64"] });
      const hand = () => {
        const most = Math.min(batch, first + count - next);
        if (most > 0) child.send([next, most]);
        else child.disconnect();
        next += most;
      };
      child.on("message", (by: Said) => {
        said(by);
        hand();
      });
      child.on("error", failed);
      child.on("exit", (code) => (code === 0 ? done() : failed(new Error(`a process ended with ${code}`))));
      hand();
    });
  try {
    const file = await bundled(worker, folder);
    await Promise.all(Array.from({ length: processes }, () => one(file)));
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** Returns the worker as one file. From the sources, `tsx` names each function as it is made, which takes a third longer. */
async function bundled(worker: URL, folder: string): Promise<string> {
  const outfile = join(folder, "worker.mjs");
  await build({
    entryPoints: [fileURLToPath(worker)],
    bundle: true,
    format: "esm",
    packages: "external",
    platform: "node",
    target: "node20",
    logLevel: "error",
    outfile,
    plugins: [
      {
        name: "own-urls",
        setup(builder) {
          builder.onLoad({ filter: /\.ts$/ }, ({ path }) => {
            const url = JSON.stringify(pathToFileURL(path).href);
            const contents = readFileSync(path, "utf8").replaceAll(/import\.meta\.url/g, url);
            return { contents, loader: "ts" };
          });
        },
      },
    ],
  });
  return outfile;
}
