import { copyFileSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { openDatabase } from "../../server/store/open.ts";
import { SqliteEventStore } from "../../server/store/sqlite-events.ts";
import type { Chance } from "../sim/chance.ts";
import { append } from "../store/contract.ts";

const SECTOR = 512;
const SESSIONS = 3;

export interface PowerCuts {
  faults: string[];
  cuts: number;
  /** Cuts whose image holds a torn piece of the log. */
  torn: number;
  /** Times the log started again after its content had moved to the database. */
  checkpoints: number;
}

/**
 * Appends to a database and cuts the power `cuts` times, each during an append. In the files, sectors written after
 * the last answered append are lost, kept or garbled at random. Each image is opened as at a start. It must hold
 * everything that was answered, and nothing by half.
 */
export async function powerCuts(folder: string, cuts: number, chance: Chance): Promise<PowerCuts> {
  const file = `${folder}/live.db`;
  const db = openDatabase(file, 1);
  db.pragma("wal_autocheckpoint = 40");
  const store = new SqliteEventStore(db);
  const heads = new Map<string, number>();
  const found: PowerCuts = { faults: [], cuts: 0, torn: 0, checkpoints: 0 };
  let salt = "";
  while (found.cuts < cuts) {
    const before = logOf(file);
    if (salt !== "" && before.salt !== salt) found.checkpoints += 1;
    salt = before.salt;
    const session = `s${chance.below(SESSIONS)}`;
    const head = heads.get(session) ?? 0;
    const count = 1 + chance.below(6);
    const cut = chance.is(0.3);
    const image = `${folder}/image-${found.cuts}.db`;
    // The database file before the append. A checkpoint after the append flushes the log first, so that nothing of it
    // can be torn then.
    if (cut) copyFileSync(file, image);
    await store.append(append(session, head, count));
    // The append is under way here, because it has not been answered.
    if (cut) {
      found.cuts += 1;
      const log = logOf(file);
      // A log that starts again overwrites, from its head, one whose content is flushed into the database.
      const flushed = log.salt === before.salt ? before.end : 0;
      writeFileSync(`${image}-wal`, tear(before.bytes, log.bytes, [flushed, log.end], chance));
      if (log.end > flushed) found.torn += 1;
      found.faults.push(...(await faultsOf(image, heads, { session, count })));
      for (const end of ["", "-wal", "-shm"]) rmSync(image + end, { force: true });
    }
    heads.set(session, head + count);
  }
  await store.close();
  return found;
}

/** Returns the faults of the image: `heads` that it lacks, or appends `underWay` that it holds by half. */
async function faultsOf(
  image: string,
  heads: ReadonlyMap<string, number>,
  underWay: { session: string; count: number },
): Promise<string[]> {
  const faults: string[] = [];
  const db = openDatabase(image, 2);
  const whole = db.pragma("integrity_check", { simple: true });
  if (whole !== "ok") faults.push(`${image} is damaged: ${whole}`);
  const store = new SqliteEventStore(db);
  for (const [session, head] of heads) {
    const row = await store.session(session);
    const events = await store.read(session, 0, 100_000);
    const may = session === underWay.session ? [head, head + underWay.count] : [head];
    if (!may.includes(events.length))
      faults.push(`${image}: ${session} has ${events.length}, not ${may.join(" or ")}`);
    if (row?.headSeq !== events.length) faults.push(`${image}: the row of ${session} is at ${row?.headSeq}`);
    if (events.some((e, i) => e.body !== `{"seq":${i + 1}}`))
      faults.push(`${image}: ${session} is not what was written`);
  }
  await store.close();
  return faults;
}

/** Returns the bytes of a log that was partly written when the power failed: each sector new, old, empty or garbled. */
function tear(before: Buffer, after: Buffer, [from, end]: [number, number], chance: Chance): Buffer {
  const torn = Buffer.from(after);
  for (let at = from; at < end; at = (Math.floor(at / SECTOR) + 1) * SECTOR) {
    const to = Math.min(end, (Math.floor(at / SECTOR) + 1) * SECTOR);
    const fate = chance.below(5);
    if (fate === 0) torn.fill(0, at, to);
    if (fate === 1) for (let i = at; i < to; i += 1) torn.writeUInt8(chance.below(256), i);
    if (fate === 2) {
      // The file was made longer here and holds nothing yet.
      torn.fill(0, at, to);
      if (at < before.length) before.copy(torn, at, at, Math.min(to, before.length));
    }
  }
  const cut = before.length <= from && chance.is(0.3);
  return cut ? torn.subarray(0, from + chance.below(end - from + 1)) : torn;
}

/**
 * Returns the end of the write-ahead log's own frames. Their salts differ from those of the log before (SQLite file
 * format, section 4.1, from memory).
 */
function logOf(file: string): { bytes: Buffer; end: number; salt: string } {
  const bytes = readFileSync(`${file}-wal`);
  if (bytes.length < 32) return { bytes, end: bytes.length, salt: "" };
  const frame = 24 + bytes.readUInt32BE(8);
  const salt = bytes.subarray(16, 24);
  let end = 32;
  while (end + frame <= bytes.length && bytes.subarray(end + 8, end + 16).equals(salt)) end += frame;
  return { bytes, end, salt: salt.toString("hex") };
}
