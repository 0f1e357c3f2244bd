// npm start: starts the server from any state of the checkout, doing only the missing steps.
// npm start -- --version: prints the version and starts nothing.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { root } from "./fresh.mjs";
import { ensureInstalled } from "./install.mjs";
import { prepare } from "./prepare.mjs";
import { fail } from "./run.mjs";

if (process.argv.includes("--version")) {
  console.log(`chockside ${JSON.parse(readFileSync(join(root, "package.json"), "utf8")).version}`);
  process.exit(0);
}

try {
  await ensureInstalled();
  await prepare("client", "web", "server");
} catch (error) {
  fail(error);
}

// Run in this process, so that signals and the exit code are the server's own.
process.chdir(root);
process.setSourceMapsEnabled(true);
process.argv[1] = join(root, "server", "main.ts");
await import(pathToFileURL(join(root, "server", "dist", "main.js")).href);
