import { renameSync, rmSync } from "node:fs";
import Database from "better-sqlite3";
import { StartRefused } from "../start-refused.ts";
import { VERSION } from "../version.ts";
import { copyDatabase } from "./copy.ts";

/** Prints what an upgrade will do. On standard error, because a command may print data on standard output. */
export function sayUpgrade(name: string, steps: readonly string[]): void {
  console.error(`chockside: bringing ${name} to the shape of version ${VERSION}: ${steps.join(", ")}`);
}

/**
 * Copies a database file as it is before an upgrade, and says where the copy is. A further try of the same upgrade
 * replaces it, so that tries without end do not fill the disk.
 * @throws StartRefused when it cannot be copied
 */
export function keepBefore(file: string, steps: readonly string[]): void {
  sayUpgrade(file, steps);
  const into = `${file}.before-${steps[0]}`;
  const part = `${into}.part`;
  try {
    rmSync(part, { force: true });
    copyDatabase(file, part);
    assertSound(part);
    renameSync(part, into);
  } catch (error) {
    throw new StartRefused(
      `${file} was not upgraded, because no copy of it could be made: ${(error as Error).message}`,
    );
  }
  console.error(`chockside: as it was it is in ${into}: remove that once this version has proved good`);
}

function assertSound(file: string): void {
  const db = new Database(file, { readonly: true });
  try {
    const found = db.pragma("integrity_check", { simple: true });
    if (found !== "ok") throw new Error(`the copy is damaged: ${found}`);
  } finally {
    db.close();
  }
}
