// npm run dev: restarts the server and reloads the panels when their sources change.
import { spawn } from "node:child_process";
import { join } from "node:path";
import { root } from "./fresh.mjs";
import { ensureInstalled } from "./install.mjs";
import { prepare } from "./prepare.mjs";
import { fail } from "./run.mjs";

const SERVER_PORT = "4181";

try {
  await ensureInstalled({ forTests: true });
  await prepare("client");
} catch (error) {
  fail(error);
}

const start = (script, args, env) =>
  spawn(process.execPath, [join(root, "node_modules", script), ...args], {
    cwd: root,
    stdio: "inherit",
    env: { ...process.env, ...env },
  });
const children = [
  start("tsx/dist/cli.mjs", ["watch", "--clear-screen=false", "server/main.ts"], { PORT: SERVER_PORT }),
  start("vite/bin/vite.js", ["web"], { CHOCKSIDE_SERVER: `http://127.0.0.1:${SERVER_PORT}` }),
];

// Stop both together, and signal each once: on a second signal the watcher kills the server during its shutdown.
let stopping = false;
const stop = (signal) => {
  if (stopping) return;
  stopping = true;
  // The terminal sent Ctrl-C to the children already.
  if (signal === "SIGINT" && process.stdin.isTTY) return;
  for (const child of children) child.kill(signal);
};
for (const signal of ["SIGINT", "SIGTERM"]) process.on(signal, () => stop(signal));
for (const child of children)
  child.once("exit", (code) => {
    process.exitCode ||= code ?? 0;
    stop("SIGTERM");
  });
