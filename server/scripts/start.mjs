// npm start: from whatever state the checkout is in to a listening server, doing only what is missing.
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { root } from "./fresh.mjs";
import { ensureInstalled } from "./install.mjs";
import { prepare } from "./prepare.mjs";
import { fail } from "./run.mjs";

try {
  await ensureInstalled();
  await prepare("client", "web", "server");
} catch (error) {
  fail(error);
}

// In this very process: signals and exit code are the server's own, and nothing is started twice.
process.chdir(root);
process.setSourceMapsEnabled(true);
process.argv[1] = join(root, "server", "main.ts");
await import(pathToFileURL(join(root, "server", "dist", "main.js")).href);
