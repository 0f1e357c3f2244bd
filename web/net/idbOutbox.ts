import { type IDBPDatabase, openDB } from "idb";
import type { Entry, Outbox } from "../../shared/replica/outbox.ts";

const DATABASE = "chockside";
const STORE = "outbox";

/** A device that takes longer than this to open its book or to write in it is not waited for, milliseconds. */
const SLOWEST_MS = 1_000;

/** Where a person's unsent signals are written down. One writer at a time: whoever holds the person's lock. */
export interface OutboxBook {
  /** True while what is written down outlives this window. */
  lasting(): boolean;
  read(): Promise<Outbox>;
  /** Resolves once it is written, or once it is known that it cannot be; never rejects, so that a stop always goes. */
  write(outbox: Outbox): Promise<void>;
}

/**
 * The outbox of one person on this device, in IndexedDB: it outlives the window and the browser. Where IndexedDB fails,
 * the book goes on in memory and says so by `lasting`.
 */
export async function openBook(person: string): Promise<OutboxBook> {
  let db = await within(open, SLOWEST_MS).catch(() => null);
  return {
    lasting: () => db !== null,
    async read() {
      try {
        return asOutbox(await db?.get(STORE, person));
      } catch {
        db = null;
        return [];
      }
    },
    async write(outbox) {
      const into = db;
      if (!into) return;
      await within(() => writeOne(into, person, outbox), SLOWEST_MS).catch(() => {
        db = null;
      });
    },
  };
}

const open = (): Promise<IDBPDatabase> =>
  openDB(DATABASE, 1, { upgrade: (made) => void made.createObjectStore(STORE) });

/** Rejects also where `work` throws at once, or is not done in time. */
async function within<T>(work: () => Promise<T>, ms: number): Promise<T> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const slow = new Promise<never>((_, late) => {
    timer = setTimeout(() => late(new Error("too slow")), ms);
  });
  try {
    return await Promise.race([work(), slow]);
  } finally {
    clearTimeout(timer);
  }
}

/** The whole outbox in one record: what is read back is one moment of it, in order. */
async function writeOne(db: IDBPDatabase, person: string, outbox: Outbox): Promise<void> {
  // Relaxed: it must have left this process before a stop goes, not have reached the disk.
  const tx = db.transaction(STORE, "readwrite", { durability: "relaxed" });
  await Promise.all([tx.store.put(outbox, person), tx.done]);
}

/** As it was written down. An entry of another shape is dropped: the server would only refuse it. */
function asOutbox(kept: unknown): Outbox {
  return Array.isArray(kept) ? (kept as Entry[]).filter(isEntry) : [];
}

function isEntry(entry: Entry): boolean {
  const command = entry?.command;
  return (
    command?.v === 1 &&
    typeof command.id === "string" &&
    typeof command.session === "string" &&
    typeof command.clientAt === "number" &&
    typeof command.action?.type === "string" &&
    typeof entry.tries === "number" &&
    typeof entry.nextAt === "number"
  );
}
