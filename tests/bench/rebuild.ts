import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "better-sqlite3";
import { replay } from "../../server/sessions/replay.ts";
import { sha256 } from "../../server/sha256.ts";
import { openDatabase } from "../../server/store/open.ts";
import { chainsOnFile } from "../../server/store/sqlite-chains.ts";
import { SqliteEventStore } from "../../server/store/sqlite-events.ts";
import { serve } from "./processes.ts";
import { longSession, store, wholeStart } from "./record.ts";

const LIVE = 20;
const STARTS = 5;

/** Measures the speed of verifying and rebuilding a record, and the start of a server with a long one. */
export async function benchRebuild(count: number): Promise<boolean> {
  const folder = mkdtempSync(join(tmpdir(), "chockside-bench-"));
  try {
    const log = wholeStart();
    const file = join(folder, "many.db");
    const ids = await store(file, log, Math.ceil(count / log.events.length), "s");
    const total = ids.length * log.events.length;
    console.log(`${total} events in ${ids.length} sessions of ${log.events.length}, on SQLite\n`);
    const whole = follow(file, total) && (await rebuild(file, ids, total));
    bare(total);
    await starts(folder, count / 10);
    return whole;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

const rate = (n: number, began: number) =>
  `${Math.round((n * 1_000) / (performance.now() - began)).toLocaleString("en")} a second`;

/** Reads the bytes, hashes and links of every chain from the file, as the doctor does. */
function follow(file: string, total: number): boolean {
  const db = new Database(file, { readonly: true });
  const began = performance.now();
  const found = chainsOnFile(db, () => false);
  console.log(`verified (bytes, hashes, links, heads):       ${rate(total, began)}`);
  db.close();
  return found.events === total && found.broken.length === 0;
}

/** Also reads each event by its schema and rebuilds the state, as a server does with a session. */
async function rebuild(file: string, ids: readonly string[], total: number): Promise<boolean> {
  const events = new SqliteEventStore(openDatabase(file, Date.now()));
  const began = performance.now();
  let last = 0;
  for (const id of ids) {
    const row = await events.session(id);
    if (row) last += (await replay(events, row)).state.seq;
  }
  console.log(`rebuilt (the same, schema, state evolved):    ${rate(total, began)}`);
  await events.close();
  return last === total;
}

/** Returns the lines of this length that one core can hash in a second. */
function bare(total: number): void {
  const line = JSON.stringify(wholeStart().events[20]).padEnd(690, " ");
  const n = Math.min(total, 500_000);
  const began = performance.now();
  for (let i = 0; i < n; i += 1) sha256(line);
  console.log(`baseline, SHA-256 of 690 bytes alone:         ${rate(n, began)}\n`);
}

/** Measures from the start of the process to listening, with a long record of mostly closed sessions and with none. */
async function starts(folder: string, count: number): Promise<void> {
  const log = wholeStart();
  const file = join(folder, "start.db");
  const live = longSession(log.events.length);
  await store(file, log, Math.ceil(count / log.events.length), "s");
  await store(file, live, LIVE, "live");
  const times = { stored: [] as number[], empty: [] as number[] };
  for (let n = 0; n < STARTS; n += 1) {
    times.empty.push(await listening(join(folder, `empty-${n}.db`)));
    times.stored.push(await listening(file));
  }
  const middle = (all: number[]) => (all.sort((a, b) => a - b)[Math.floor(STARTS / 2)] ?? 0) / 1_000;
  const [stored, empty] = [middle(times.stored), middle(times.empty)];
  console.log(
    `start to listening, median of ${STARTS}: ${stored.toFixed(2)} s with ${count} events stored (${LIVE} sessions not over), ${empty.toFixed(2)} s with none: times ${(stored / empty).toFixed(2)}`,
  );
}

async function listening(file: string): Promise<number> {
  const began = performance.now();
  const environment = { PORT: "0", CHOCKSIDE_DATA: file, CHOCKSIDE_LOG: "warn" };
  const server = await serve(["server/dist/main.js"], environment);
  const took = performance.now() - began;
  await server.stop();
  return took;
}
