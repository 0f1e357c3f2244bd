import { runTests } from "../vitest.mjs";

/** Runs the browser tests with every case of each. Returns true if all pass. */
export async function panelSoak(): Promise<boolean> {
  process.env.CHOCKSIDE_LONG_FORM = "on";
  return (await runTests("--project", "browser")) === 0;
}
