import { once } from "node:events";
import { fileURLToPath } from "node:url";
import { Worker } from "node:worker_threads";
import { type FileIdentity, identityOf } from "./same-file.ts";
import type { Outcome, Write, Writer } from "./sqlite-writer.ts";

/** The built `sqlite-thread-main.ts`: a thread cannot run a TypeScript source. */
const SCRIPT = fileURLToPath(new URL("../dist/sqlite-thread-main.js", import.meta.url));

/** Messages to the thread and back: it answers with the same number and one outcome per write. */
export interface WriteRequest {
  number: number;
  group: readonly Write[];
}
/** Data passed to a new thread. */
export interface DatabaseFile {
  file: string;
  identity: FileIdentity;
}
export interface WriteReply {
  number: number;
  outcomes: Outcome[];
}

interface Waiting {
  count: number;
  done(outcomes: Outcome[]): void;
}

/**
 * Writes the evidence in its own thread, so that a slow flush does not block the event loop. The thread starts with
 * the first write. If it ends by itself, its pending writes fail, and the next write starts another.
 */
export class SqliteThread implements Writer {
  readonly #file: DatabaseFile;
  readonly #waiting = new Map<number, Waiting>();
  #worker: Worker | null = null;
  #given = 0;

  /** @param file a database that `openDatabase` has opened */
  constructor(file: string) {
    // A thread that begins later must not take a file that was put in its place.
    this.#file = { file, identity: identityOf(file) };
  }

  write(group: readonly Write[]): Promise<Outcome[]> {
    this.#worker ??= this.#begin();
    this.#given += 1;
    const given: WriteRequest = { number: this.#given, group };
    return new Promise((done) => {
      this.#waiting.set(given.number, { count: group.length, done });
      this.#worker?.postMessage(given);
    });
  }

  async close(): Promise<void> {
    const worker = this.#worker;
    if (!worker) return;
    const ended = once(worker, "exit");
    worker.postMessage(null);
    await ended;
  }

  #begin(): Worker {
    const worker = new Worker(SCRIPT, { workerData: this.#file });
    let fault = "the thread that writes has ended";
    worker.on("message", (answers: WriteReply[]) => {
      for (const { number, outcomes } of answers) {
        this.#waiting.get(number)?.done(outcomes);
        this.#waiting.delete(number);
      }
    });
    worker.on("error", (error) => {
      fault = error.message;
    });
    worker.on("exit", () => {
      this.#worker = null;
      for (const { count, done } of this.#waiting.values())
        done(Array.from({ length: count }, () => ({ is: "fault", message: fault })));
      this.#waiting.clear();
    });
    return worker;
  }
}
