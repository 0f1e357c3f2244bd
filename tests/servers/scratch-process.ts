import { type ChildProcess, type SpawnOptions, spawn } from "node:child_process";
import { once } from "node:events";
import type { AddressInfo } from "node:net";
import { createServer } from "node:net";

/** Returns a loopback port on which nobody listens now. */
export async function freePort(): Promise<number> {
  const probe = createServer().listen(0, "127.0.0.1");
  await once(probe, "listening");
  const { port } = probe.address() as AddressInfo;
  probe.close();
  await once(probe, "close");
  return port;
}

/** A server's process. Its output is kept for the message of a failure. */
export class ScratchProcess {
  readonly #child: ChildProcess;
  readonly #ended: Promise<unknown>;
  #said = "";

  constructor(program: string, args: readonly string[], options: SpawnOptions = {}) {
    this.#child = spawn(program, args, { ...options, stdio: ["ignore", "pipe", "pipe"] });
    this.#ended = once(this.#child, "exit");
    for (const stream of [this.#child.stdout, this.#child.stderr])
      stream?.on("data", (chunk) => {
        this.#said = (this.#said + String(chunk)).slice(-20_000);
      });
  }

  /**
   * Asks until the server answers.
   * @throws Error with its output when it ends before that, or never answers
   */
  async ready(answers: () => Promise<boolean>): Promise<void> {
    for (let turn = 0; turn < 400; turn += 1) {
      if (this.#child.exitCode !== null)
        throw new Error(`it ended with ${this.#child.exitCode}: ${this.#said}`);
      if (await answers().catch(() => false)) return;
      await new Promise((resolve) => setTimeout(resolve, 25));
    }
    throw new Error(`it does not answer: ${this.#said}`);
  }

  async end(signal: NodeJS.Signals): Promise<void> {
    if (this.#child.exitCode === null && this.#child.signalCode === null) this.#child.kill(signal);
    await this.#ended;
  }
}
