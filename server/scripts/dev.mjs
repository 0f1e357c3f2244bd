// npm run dev: the server restarts and the panels reload as their sources change.
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

// Both live and die together, each told once: told twice, the server's watcher would kill it mid-sentence.
let stopping = false;
const stop = (signal) => {
  if (stopping) return;
  stopping = true;
  // A terminal has sent its Ctrl-C to the children itself.
  if (signal === "SIGINT" && process.stdin.isTTY) return;
  for (const child of children) child.kill(signal);
};
for (const signal of ["SIGINT", "SIGTERM"]) process.on(signal, () => stop(signal));
for (const child of children)
  child.once("exit", (code) => {
    process.exitCode ||= code ?? 0;
    stop("SIGTERM");
  });
