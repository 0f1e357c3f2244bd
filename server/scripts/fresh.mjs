// Repeats a preparation step only when its inputs have changed. Uses Node built-ins only, because it runs before the
// installation.
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

export const root = fileURLToPath(new URL("../..", import.meta.url));

/** Inside node_modules, so that a new installation repeats every step. */
const STAMPS = join(root, "node_modules", ".cache", "chockside");
const OUTPUTS = new Set(["node_modules", "dist", "generated"]);

/**
 * Runs `work` unless `output` exists and the files under `inputs` (paths from the root) are byte for byte those of
 * the last success. Resolves to true when it ran.
 */
export async function unlessFresh({ name, inputs, output, work }) {
  const stamp = join(STAMPS, name);
  const now = digest(inputs);
  if (existsSync(join(root, output)) && existsSync(stamp) && readFileSync(stamp, "utf8") === now)
    return false;
  rmSync(stamp, { force: true });
  await work();
  mkdirSync(dirname(stamp), { recursive: true });
  writeFileSync(stamp, now);
  return true;
}

function digest(inputs) {
  const hash = createHash("sha256").update(process.version);
  for (const file of inputs.flatMap(filesUnder).sort())
    hash.update(`\0${file}\0`).update(readFileSync(join(root, file)));
  return hash.digest("hex");
}

function filesUnder(path) {
  const full = join(root, path);
  if (!existsSync(full)) return [];
  if (statSync(full).isFile()) return [path];
  return readdirSync(full, { withFileTypes: true }).flatMap((entry) =>
    OUTPUTS.has(entry.name) ? [] : filesUnder(`${path}/${entry.name}`),
  );
}
