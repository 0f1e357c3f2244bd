import { spawn } from "node:child_process";
import { root } from "./fresh.mjs";

/** A command that did not end well; `status` is the exit code to hand on. */
export class Failed extends Error {
  constructor(command, status) {
    super(`${command} ended with ${status}`);
    this.status = status;
  }
}

/** Runs a program from the root with our own terminal; resolves to its exit code (128 + n after a signal). */
export function status(program, args, env = {}) {
  return new Promise((resolve, reject) => {
    const child = spawn(program, args, { cwd: root, stdio: "inherit", env: { ...process.env, ...env } });
    child.once("error", reject);
    child.once("exit", (code) => resolve(code ?? 1));
  });
}

/** As `status`, but rejects with `Failed` unless the program ends with 0. */
export async function run(program, args, env) {
  const code = await status(program, args, env);
  if (code !== 0) throw new Failed([program, ...args].join(" "), code);
}

/** Ends the process with the failing command's own code and one line that says which it was. */
export function fail(error) {
  console.error(error instanceof Failed ? `chockside: ${error.message}` : error);
  process.exit(error instanceof Failed ? error.status : 1);
}
