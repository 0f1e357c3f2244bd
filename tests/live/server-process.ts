import { type ChildProcess, execFileSync, spawn } from "node:child_process";
import { once } from "node:events";
import { join } from "node:path";
import { createInterface } from "node:readline";
import { setTimeout } from "node:timers/promises";
import { fileURLToPath } from "node:url";

/** Longest wait for a line of output, and the time between two looks. Milliseconds. */
const PRINT_MS = 10_000;
const LOOK_MS = 50;

const root = fileURLToPath(new URL("../..", import.meta.url));

/** Builds the server's bundle if its sources have changed. */
export function prepareServer(): void {
  const script = join(root, "server", "scripts", "prepare.mjs");
  execFileSync(process.execPath, [script, "client", "server"], { cwd: root, stdio: "pipe" });
}

/** The real server as a process of its own, on a database file that outlives it. */
export class ServerProcess {
  readonly url: string;
  readonly #child: ChildProcess;
  readonly #said: readonly string[];

  private constructor(child: ChildProcess, url: string, said: readonly string[]) {
    this.#child = child;
    this.url = url;
    this.#said = said;
  }

  /**
   * Resolves once it listens.
   * @throws Error with its output when it ends before that
   */
  static async start(data: string, environment: Record<string, string> = {}): Promise<ServerProcess> {
    const child = spawn(process.execPath, [join(root, "server", "dist", "main.js")], {
      cwd: root,
      env: {
        ...process.env,
        PORT: "0",
        HOST: "127.0.0.1",
        CHOCKSIDE_DATA: data,
        CHOCKSIDE_LOG: "error",
        ...environment,
      },
      stdio: ["ignore", "pipe", "pipe"],
    });
    const said: string[] = [];
    child.stderr.on("data", (chunk) => said.push(String(chunk)));
    const url = await new Promise<string>((resolve, reject) => {
      createInterface({ input: child.stdout }).on("line", (line) => {
        said.push(`${line}\n`);
        const port = /listening on http:\/\/localhost:(\d+)/.exec(line)?.[1];
        if (port) resolve(`http://127.0.0.1:${port}`);
      });
      child.once("close", (code) => reject(new Error(`the server ended with ${code}: ${said.join("")}`)));
    });
    return new ServerProcess(child, url, said);
  }

  /**
   * Resolves to what the expression finds in the server's output, once it is printed.
   * @throws Error with the output when it is not printed within ten seconds
   */
  async printed(expression: RegExp): Promise<RegExpExecArray> {
    for (const until = Date.now() + PRINT_MS; Date.now() < until; await setTimeout(LOOK_MS)) {
      const found = expression.exec(this.#said.join(""));
      if (found) return found;
    }
    throw new Error(`not printed: ${expression}: ${this.#said.join("")}`);
  }

  /** Process id. */
  get pid(): number {
    return this.#child.pid ?? 0;
  }

  /** Kills it as a power cut would: nothing is closed in order. */
  async kill(): Promise<void> {
    const ended = once(this.#child, "exit");
    this.#child.kill("SIGKILL");
    await ended;
  }

  /** Asks it to stop; resolves to its exit code. */
  async stop(signal: "SIGTERM" | "SIGINT"): Promise<number | null> {
    const ended = once(this.#child, "exit");
    this.#child.kill(signal);
    const [code] = await ended;
    return code;
  }
}
