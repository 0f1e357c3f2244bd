import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { connect } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { freePort, ScratchProcess } from "./scratch-process.ts";

const PROGRAM = "/usr/bin/redis-server";

/** A real Redis in a scratch folder, on a free loopback port. It keeps nothing on disk, unless it is to flush every write. */
export class RedisServer {
  readonly #folder = mkdtempSync(join(tmpdir(), "chockside-redis-"));
  readonly #port: number;
  readonly #flushes: boolean;
  #process: ScratchProcess;

  private constructor(port: number, flushes: boolean) {
    this.#port = port;
    this.#flushes = flushes;
    this.#process = this.#run();
  }

  static async start({ flushes = false } = {}): Promise<RedisServer> {
    if (!existsSync(PROGRAM)) throw new Error('install the Debian package "redis-server"');
    const server = new RedisServer(await freePort(), flushes);
    await server.#ready();
    return server;
  }

  get url(): string {
    return `redis://127.0.0.1:${this.#port}`;
  }

  /** Kills it as a power cut would: its data is lost. */
  kill(): Promise<void> {
    return this.#process.end("SIGKILL");
  }

  back(): Promise<void> {
    this.#process = this.#run();
    return this.#ready();
  }

  async stop(): Promise<void> {
    await this.#process.end("SIGKILL");
    rmSync(this.#folder, { recursive: true, force: true });
  }

  #run(): ScratchProcess {
    const settings = [
      "--port",
      String(this.#port),
      "--bind",
      "127.0.0.1",
      "--save",
      "",
      "--appendonly",
      this.#flushes ? "yes" : "no",
      "--appendfsync",
      "always",
    ];
    return new ScratchProcess(PROGRAM, settings, { cwd: this.#folder });
  }

  #ready(): Promise<void> {
    return this.#process.ready(
      () =>
        new Promise((resolve, reject) => {
          const socket = connect(this.#port, "127.0.0.1", () => socket.write("PING\r\n"));
          socket.once("data", (said) => {
            socket.destroy();
            resolve(String(said).startsWith("+PONG"));
          });
          socket.once("error", reject);
        }),
    );
  }
}
