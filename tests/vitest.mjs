import { join } from "node:path";
import { root } from "../server/scripts/fresh.mjs";
import { status } from "../server/scripts/run.mjs";

/** Runs Vitest with these further arguments. Resolves to its exit code. */
export function runTests(...args) {
  const vitest = join(root, "node_modules", "vitest", "vitest.mjs");
  return status(process.execPath, [vitest, "run", "--config", "tests/vitest.config.ts", ...args]);
}
