import { spawn } from "node:child_process";
import { join } from "node:path";
import { root } from "../server/scripts/fresh.mjs";

/** The compiler's notes about the last check: the next one reads only what changed since. */
const TYPES_SEEN = "node_modules/.cache/chockside/types.tsbuildinfo";

const CHECKS = [
  ["types", "typescript/bin/tsc", "--noEmit", "--incremental", "--tsBuildInfoFile", TYPES_SEEN],
  ["lint and format", "@biomejs/biome/bin/biome", "check", "--error-on-warnings"],
  ["dead code", "knip/bin/knip.js", "--config", "tests/knip.json"],
];

/** Checks types, lint and dead code at the same time and prints what each says. Returns the names of those that fail. */
export async function checkSources() {
  const failed = [];
  const running = CHECKS.map(([name, script, ...args]) => ({ name, result: output(script, args) }));
  for (const { name, result } of running) {
    const { code, text } = await result;
    console.log(`\n== ${name}\n${text}`);
    if (code !== 0) failed.push(name);
  }
  return failed;
}

/** Resolves to a script's exit code and everything it printed, so that scripts which run together do not mix. */
function output(script, args) {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [join(root, "node_modules", script), ...args], { cwd: root });
    const printed = [];
    for (const stream of [child.stdout, child.stderr]) stream.on("data", (bytes) => printed.push(bytes));
    child.once("error", reject);
    child.once("close", (code) => resolve({ code: code ?? 1, text: Buffer.concat(printed).toString() }));
  });
}
