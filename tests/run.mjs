// npm test: runs every check on a machine that may hold nothing but Node and npm, and ends with the totals.
import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, relative } from "node:path";
import { root } from "../server/scripts/fresh.mjs";
import { ensureInstalled } from "../server/scripts/install.mjs";
import { prepare } from "../server/scripts/prepare.mjs";
import { fail, run } from "../server/scripts/run.mjs";
import { checkSources } from "./sources.mjs";
import { runTests } from "./vitest.mjs";

/** Programs that the tests need and npm does not install: a path that shows one is there, its Debian package, its use. */
const PROGRAMS = [
  ["/usr/bin/chromium-headless-shell", "chromium-headless-shell", "browser tests"],
  ["/usr/lib/postgresql", "postgresql", "tests of several servers"],
  ["/usr/bin/python3", "python3", "tests of evidence"],
  ["/usr/bin/redis-server", "redis-server", "tests of several servers"],
  ["/usr/bin/openssl", "openssl", "tests of certificates"],
];

try {
  await ensureInstalled({ forTests: true });
  await ensurePrograms();
  await prepare("client", "web", "server");
} catch (error) {
  fail(error);
}

const scratch = mkdtempSync(join(tmpdir(), "chockside-tests-"));
const report = join(scratch, "report.json");
const bad = await checkSources();
console.log("\n== tests");
const reporters = ["--reporter=default", "--reporter=json", `--outputFile.json=${report}`];
if ((await runTests(...reporters)) !== 0) bad.push("tests");

const { passed, failed, notRun, longest } = totals();
rmSync(scratch, { recursive: true, force: true });
console.log(`\nLongest: ${longest.join(", ")}`);
if (passed + failed === 0) bad.push("no test ran");
if (notRun > 0) bad.push(`${notRun} tests were skipped`);
console.log(bad.length > 0 ? `\nNot in order: ${bad.join(", ")}` : "\nAll checks are in order");
console.log(`${passed} passed, ${failed} failed`);
process.exit(bad.length > 0 || failed > 0 ? 1 : 0);

/** Returns Vitest's own counts and its longest files; zeros when it ended before it wrote its report. */
function totals() {
  if (!existsSync(report)) return { passed: 0, failed: 0, notRun: 0, longest: [] };
  const json = JSON.parse(readFileSync(report, "utf8"));
  const longest = json.testResults
    .map(({ name, startTime, endTime }) => ({ file: relative(root, name), s: (endTime - startTime) / 1000 }))
    .sort((a, b) => b.s - a.s)
    .slice(0, 20)
    .map(({ file, s }) => `${file} ${Math.round(s)} s`);
  return {
    passed: json.numPassedTests,
    failed: json.numFailedTests,
    notRun: json.numPendingTests + json.numTodoTests,
    longest,
  };
}

/** Installs the missing Debian packages as root on Debian; elsewhere names them and ends the process. */
async function ensurePrograms() {
  const missing = PROGRAMS.filter(([path]) => !existsSync(path));
  if (missing.length === 0) return;
  const packages = missing.map(([, name]) => name);
  const mayInstall = process.getuid?.() === 0 && spawnSync("apt-get", ["--version"]).status === 0;
  if (!mayInstall) {
    for (const [path, name, purpose] of missing)
      console.error(`chockside: the ${purpose} need ${path}: install the Debian package "${name}" as root`);
    process.exit(1);
  }
  console.log(`chockside: installing ${packages.join(", ")} for the tests`);
  const env = { DEBIAN_FRONTEND: "noninteractive" };
  await run("apt-get", ["update"], env);
  await run("apt-get", ["install", "-y", "--no-install-recommends", ...packages], env);
}
