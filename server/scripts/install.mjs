// Installs the exact dependencies of package-lock.json when node_modules lacks them.
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { root } from "./fresh.mjs";
import { Failed, run, status } from "./run.mjs";

const [major, minor] = process.versions.node.split(".").map(Number);

/** @param {{ forTests?: boolean }} options true installs development dependencies too */
export async function ensureInstalled({ forTests = false } = {}) {
  if (major < 20 || (major === 20 && minor < 19)) {
    console.error(`chockside: needs Node 20.19 or later; this is ${process.version}`);
    process.exit(1);
  }
  if (isInstalled(forTests)) return;
  console.log("chockside: installing dependencies (the first time takes a minute or two)");
  await npm(["ci"]);
  if (existsSync(join(root, SQLITE))) return;
  throw new Failed("npm ci left better-sqlite3 without its native binding and", 1);
}

const SQLITE = "node_modules/better-sqlite3/build/Release/better_sqlite3.node";

/** Compares the lock file with npm's own record of node_modules. */
function isInstalled(forTests) {
  const record = join(root, "node_modules", ".package-lock.json");
  if (!existsSync(record) || !existsSync(join(root, SQLITE))) return false;
  const { packages: wanted } = JSON.parse(readFileSync(join(root, "package-lock.json"), "utf8"));
  const { packages: held } = JSON.parse(readFileSync(record, "utf8"));
  return Object.entries(wanted).every(([path, entry]) => {
    if (path === "") return true;
    const there = held[path];
    // Optional packages for other platforms may be missing, and development packages unless `forTests`.
    if (!there) return entry.optional || entry.devOptional || (entry.dev && !forTests);
    return there.version === entry.version && there.integrity === entry.integrity;
  });
}

/** Runs npm: its script by Node where npm started us, because on Windows npm is not an executable. */
async function npm(args) {
  const script = process.env.npm_execpath;
  if (script?.endsWith(".js")) await run(process.execPath, [script, ...args]);
  else if ((await status("npm", args)) !== 0) throw new Failed(`npm ${args.join(" ")}`, 1);
}
