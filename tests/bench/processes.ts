import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import type { LoadPlan, LoadResult } from "./load.ts";

const ROOT = new URL("../../", import.meta.url).pathname;

export interface Serving {
  url: string;
  pid: number;
  /** Resolves when the process has ended. */
  stop(): Promise<void>;
}

/** Starts a server process and waits for the line that names its address. */
export function serve(args: readonly string[], env: Record<string, string> = {}): Promise<Serving> {
  const child = spawn(process.execPath, args, { cwd: ROOT, env: { ...process.env, ...env } });
  const stop = async () => {
    const ended = once(child, "exit");
    child.kill("SIGTERM");
    await ended;
  };
  return new Promise((done, failed) => {
    let seen = "";
    const read = (chunk: Buffer) => {
      seen += chunk.toString();
      const url = /listening on (http:\/\/\S+?)[\s")]/.exec(seen)?.[1];
      if (url) done({ url: url.replace("localhost", "127.0.0.1"), pid: child.pid ?? 0, stop });
    };
    child.stdout.on("data", read);
    child.stderr.on("data", read);
    child.on("exit", (code) => failed(new Error(`${args.join(" ")} ended with ${code}\n${seen}`)));
  });
}

/** Runs the load in its own process. */
export function drive(plan: LoadPlan): Promise<LoadResult> {
  const child: ChildProcess = spawn(process.execPath, ["--import", "tsx", "tests/bench/driver.ts"], {
    cwd: ROOT,
  });
  child.stdin?.end(JSON.stringify(plan));
  return new Promise((done, failed) => {
    let out = "";
    let err = "";
    child.stdout?.on("data", (chunk) => {
      out += chunk;
    });
    child.stderr?.on("data", (chunk) => {
      err += chunk;
    });
    child.on("exit", (code) => {
      if (code === 0) done(JSON.parse(out) as LoadResult);
      else failed(new Error(`the driver ended with ${code}\n${err}`));
    });
  });
}
