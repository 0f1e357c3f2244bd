// npm test: every check there is, on a machine that may hold nothing but Node and npm. Ends with the totals.
import { spawn, spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join, relative } from "node:path";
import { root } from "../server/scripts/fresh.mjs";
import { ensureInstalled } from "../server/scripts/install.mjs";
import { prepare } from "../server/scripts/prepare.mjs";
import { fail, run, status } from "../server/scripts/run.mjs";

/** What the tests drive and npm does not bring: a path or folder it leaves, its Debian package, what it is for. */
const PROGRAMS = [
  ["/usr/bin/chromium", "chromium", "browser tests"],
  ["/usr/lib/postgresql", "postgresql", "tests of several servers"],
  ["/usr/bin/python3", "python3", "tests of evidence"],
  ["/usr/bin/redis-server", "redis-server", "tests of several servers"],
  ["/usr/bin/openssl", "openssl", "tests of certificates"],
];
const bin = (path) => join(root, "node_modules", path);
const node = (script, ...args) => status(process.execPath, [bin(script), ...args]);

try {
  await ensureInstalled({ forTests: true });
  await ensurePrograms();
  await prepare("client", "web", "server");
} catch (error) {
  fail(error);
}

const scratch = mkdtempSync(join(tmpdir(), "chockside-tests-"));
const report = join(scratch, "report.json");
const config = ["--config", "tests/vitest.config.ts"];
const outputs = ["--reporter=default", "--reporter=json", `--outputFile.json=${report}`];
const bad = [];
// Each of them keeps one core busy.
const readings = [
  ["types", told("typescript/bin/tsc", "--noEmit")],
  ["lint and format", told("@biomejs/biome/bin/biome", "check", "--error-on-warnings", ".")],
  ["dead code", told("knip/bin/knip.js", "--config", "tests/knip.json")],
];
for (const [name, reading] of readings) {
  const { code, said } = await reading;
  console.log(`\n== ${name}\n${said}`);
  if (code !== 0) bad.push(name);
}
console.log("\n== tests");
if ((await node("vitest/vitest.mjs", "run", ...config, ...outputs)) !== 0) bad.push("tests");

const { passed, failed, notRun, longest } = totals();
rmSync(scratch, { recursive: true, force: true });
console.log(`\nLongest: ${longest.join(", ")}`);
if (passed + failed === 0) bad.push("no test ran");
if (notRun > 0) bad.push(`${notRun} tests were skipped`);
console.log(bad.length > 0 ? `\nNot in order: ${bad.join(", ")}` : "\nAll checks are in order");
console.log(`${passed} passed, ${failed} failed`);
process.exit(bad.length > 0 || failed > 0 ? 1 : 0);

/** Runs a check beside others: its exit code, and what it said, to be shown in one piece. */
function told(script, ...args) {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [bin(script), ...args], { cwd: root });
    const said = [];
    for (const stream of [child.stdout, child.stderr]) stream.on("data", (bytes) => said.push(bytes));
    child.once("error", reject);
    child.once("close", (code) => resolve({ code: code ?? 1, said: Buffer.concat(said).toString() }));
  });
}

/** Vitest's own count and its longest files; nothing at all where it ended before it could write one. */
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

/** Debian's packages are installed where that may be done, and named where it may not. */
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
