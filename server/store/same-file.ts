import { statSync } from "node:fs";

/** Device and inode, which differ for another file of the same name. Null when there is no file. */
export type FileIdentity = string | null;

export function identityOf(file: string): FileIdentity {
  const found = statSync(file, { bigint: true, throwIfNoEntry: false });
  return found ? `${found.dev}:${found.ino}` : null;
}

/**
 * Notices that the database file or its log was deleted, or that another took its name. The open handle goes on writing
 * to the file without a name: what is written there is lost at the end of the process.
 */
export class SameFile {
  readonly #file: string;
  readonly #identity: FileIdentity;
  #log: FileIdentity = null;

  /** @param identity of the file when it was opened */
  constructor(file: string, identity: FileIdentity = identityOf(file)) {
    this.#file = file;
    this.#identity = identity;
  }

  /** Returns what is wrong, or null. The log is compared from the first call at which there is one. */
  fault(): string | null {
    if (identityOf(this.#file) !== this.#identity)
      return `${this.#file} was moved, deleted or replaced: put it back, or stop the server and restore a backup`;
    const log = identityOf(`${this.#file}-wal`);
    if (this.#log === null) this.#log = log;
    if (log === this.#log) return null;
    return `${this.#file}-wal was moved, deleted or replaced: stop the server and restore a backup`;
  }
}
