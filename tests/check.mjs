// npm run check: types, lint, dead code and the tests that need no database, browser or other program.
import { ensureInstalled } from "../server/scripts/install.mjs";
import { prepare } from "../server/scripts/prepare.mjs";
import { fail } from "../server/scripts/run.mjs";
import { checkSources } from "./sources.mjs";
import { runTests } from "./vitest.mjs";

try {
  await ensureInstalled({ forTests: true });
  await prepare("client");
} catch (error) {
  fail(error);
}

const began = performance.now();
const bad = await checkSources();
console.log("\n== tests");
if ((await runTests("--project", "pure", "--project", "quick")) !== 0) bad.push("tests");
const seconds = Math.round((performance.now() - began) / 1000);
console.log(
  bad.length > 0 ? `\nNot in order after ${seconds} s: ${bad.join(", ")}` : `\nIn order, ${seconds} s`,
);
process.exit(bad.length > 0 ? 1 : 0);
