import { type ChildProcess, spawn } from "node:child_process";
import { constants, setPriority } from "node:os";
import { Readable } from "node:stream";
import { fileURLToPath } from "node:url";
import type { Printer } from "./press.ts";

/** `paper-main.ts` as it is built: a process cannot be begun from a source. */
const SCRIPT = fileURLToPath(new URL("../dist/paper-main.js", import.meta.url));

export interface PaperLimits {
  /** Memory of the process's JavaScript, megabytes. */
  memoryMb: number;
  /** Bytes of the PDF. */
  bytes: number;
  /** Milliseconds a sheet may take. */
  ms: number;
}

export const PAPER: PaperLimits = { memoryMb: 384, bytes: 48 * 1024 * 1024, ms: 120_000 };

/** Characters of a failed process's words that are told. */
const TOLD = 2_000;

/**
 * Prints each sheet in a process of its own, with bounded memory, time and output, and below the server in priority. A
 * process that dies takes nothing of the server with it.
 */
export class PaperProcesses implements Printer {
  readonly #limits: PaperLimits;
  readonly #running = new Set<ChildProcess>();

  constructor(limits: PaperLimits = PAPER) {
    this.#limits = limits;
  }

  print(lines: AsyncIterable<string>): Promise<Buffer> {
    const { memoryMb, bytes, ms } = this.#limits;
    const child = spawn(process.execPath, [`--max-old-space-size=${memoryMb}`, SCRIPT], {
      // Nothing of the server's settings, which hold secrets.
      env: {},
      stdio: ["pipe", "pipe", "pipe"],
    });
    this.#running.add(child);
    lower(child);
    const late = setTimeout(() => child.kill("SIGKILL"), ms);
    const made: Buffer[] = [];
    let size = 0;
    let said = "";
    child.stdout.on("data", (chunk: Buffer) => {
      size += chunk.length;
      if (size > bytes) child.kill("SIGKILL");
      else made.push(chunk);
    });
    child.stderr.on("data", (chunk) => {
      said = `${said}${chunk}`.slice(0, TOLD);
    });
    let fault: unknown = null;
    const input = Readable.from(written(lines));
    input.on("error", (error) => {
      fault = error;
      child.kill("SIGKILL");
    });
    // A process that ended reads no more: its end is told below.
    child.stdin.on("error", () => {});
    input.pipe(child.stdin);
    return new Promise((done, failed) => {
      const end = () => {
        clearTimeout(late);
        this.#running.delete(child);
        input.destroy();
      };
      child.once("error", (error) => {
        end();
        failed(error);
      });
      child.once("close", (code, signal) => {
        end();
        if (code === 0) done(Buffer.concat(made));
        else failed(fault ?? new Error(`the process that prints ended with ${signal ?? code}: ${said}`));
      });
    });
  }

  close(): void {
    for (const child of this.#running) child.kill("SIGKILL");
  }
}

async function* written(lines: AsyncIterable<string>): AsyncIterable<string> {
  for await (const line of lines) yield `${line}\n`;
}

/** Signals go before paper where both want the processor. */
function lower({ pid }: ChildProcess): void {
  try {
    if (pid !== undefined) setPriority(pid, constants.priority.PRIORITY_BELOW_NORMAL);
  } catch {
    // It has ended already, or the system does not let us.
  }
}
