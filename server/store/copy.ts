import { closeSync, fsyncSync, openSync } from "node:fs";
import Database from "better-sqlite3";

/**
 * Copies a database into a file of this user alone, and waits until it is on the disk. It takes one read transaction,
 * which neither waits for a writer nor makes it wait.
 */
export function copyDatabase(file: string, into: string): void {
  const db = new Database(file, { readonly: true, timeout: 5_000 });
  try {
    closeSync(openSync(into, "w", 0o600));
    db.prepare("VACUUM INTO ?").run(into);
  } finally {
    db.close();
  }
  const written = openSync(into, "r+");
  fsyncSync(written);
  closeSync(written);
}
