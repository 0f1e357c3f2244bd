import { execFileSync } from "node:child_process";
import { chownSync, existsSync, mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import pg from "pg";
import { freePort, ScratchProcess } from "./scratch-process.ts";

const PACKAGED = "/usr/lib/postgresql";

/** Returns the folder of the newest PostgreSQL that Debian's packages have installed. */
function programs(): string {
  const versions = existsSync(PACKAGED) ? readdirSync(PACKAGED) : [];
  const newest = versions.sort((a, b) => Number(b) - Number(a))[0];
  if (newest === undefined) throw new Error('install the Debian package "postgresql"');
  return join(PACKAGED, newest, "bin");
}

/** PostgreSQL refuses to run as root. As root, run it as the user that its package made. */
function owner(): { uid?: number; gid?: number } {
  if (process.getuid?.() !== 0) return {};
  const id = (flag: string) => Number(execFileSync("id", [flag, "postgres"], { encoding: "utf8" }));
  return { uid: id("-u"), gid: id("-g") };
}

/** A real PostgreSQL in a scratch folder, on a free loopback port. It flushes to disk as in production. */
export class PostgresServer {
  readonly #folder: string;
  readonly port: number;
  #process: ScratchProcess;

  private constructor(folder: string, port: number) {
    this.#folder = folder;
    this.port = port;
    this.#process = this.#run();
  }

  static async start(): Promise<PostgresServer> {
    const folder = mkdtempSync(join(tmpdir(), "chockside-postgres-"));
    const as = owner();
    if (as.uid !== undefined) chownSync(folder, as.uid, as.gid ?? as.uid);
    const init = ["-D", join(folder, "data"), "-U", "chockside", "-A", "trust", "--no-sync", "-E", "UTF8"];
    execFileSync(join(programs(), "initdb"), init, { ...as, cwd: folder, stdio: "pipe" });
    const server = new PostgresServer(folder, await freePort());
    await server.ready();
    return server;
  }

  /** Creates an empty database and returns its address. */
  async database(name: string): Promise<string> {
    await this.#ask(`CREATE DATABASE ${name}`);
    return this.url(name);
  }

  url(name: string): string {
    return `postgres://chockside@127.0.0.1:${this.port}/${name}`;
  }

  /** Restarts as an operator does: work under way is cut off, committed work is kept. */
  async restart(): Promise<void> {
    await this.away();
    await this.back();
  }

  /** Stops it until `back` is called. */
  away(): Promise<void> {
    return this.#process.end("SIGINT");
  }

  back(): Promise<void> {
    this.#process = this.#run();
    return this.ready();
  }

  async stop(): Promise<void> {
    await this.away();
    rmSync(this.#folder, { recursive: true, force: true });
  }

  /** Resolves once `sql` returns a row. */
  async until(url: string, sql: string): Promise<void> {
    const client = new pg.Client({ connectionString: url });
    await client.connect();
    while ((await client.query(sql)).rowCount === 0);
    await client.end();
  }

  ready(): Promise<void> {
    return this.#process.ready(async () => {
      await this.#ask("SELECT 1");
      return true;
    });
  }

  #run(): ScratchProcess {
    const settings = ["listen_addresses=127.0.0.1", `port=${this.port}`, "unix_socket_directories="];
    const args = ["-D", join(this.#folder, "data"), ...settings.flatMap((s) => ["-c", s])];
    return new ScratchProcess(join(programs(), "postgres"), args, { ...owner(), cwd: this.#folder });
  }

  async #ask(sql: string): Promise<void> {
    const client = new pg.Client({ connectionString: this.url("postgres") });
    client.on("error", () => {});
    await client.connect();
    try {
      await client.query(sql);
    } finally {
      await client.end();
    }
  }
}
