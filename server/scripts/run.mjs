import { spawn } from "node:child_process";
import { root } from "./fresh.mjs";

/** A command that failed. `status` is the exit code to pass on. */
export class Failed extends Error {
  constructor(command, status) {
    super(`${command} ended with ${status}`);
    this.status = status;
  }
}

/**
 * Runs a program in the root folder with the terminal inherited. Resolves to its exit code; 1 when a signal ended it.
 */
export function status(program, args, env = {}) {
  return new Promise((resolve, reject) => {
    const child = spawn(program, args, { cwd: root, stdio: "inherit", env: { ...process.env, ...env } });
    child.once("error", reject);
    child.once("exit", (code) => resolve(code ?? 1));
  });
}

/** Runs a program as `status` does. Rejects with `Failed` when its exit code is not 0. */
export async function run(program, args, env) {
  const code = await status(program, args, env);
  if (code !== 0) throw new Failed([program, ...args].join(" "), code);
}

/** Exits with the failed command's code after one line that names the command. */
export function fail(error) {
  console.error(error instanceof Failed ? `chockside: ${error.message}` : error);
  process.exit(error instanceof Failed ? error.status : 1);
}
