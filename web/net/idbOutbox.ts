import { type IDBPDatabase, openDB } from "idb";
import type { Entry, Outbox } from "../../shared/replica/outbox.ts";

const DATABASE = "chockside";
const STORE = "outbox";

/** Longest wait for the device to open the database or write to it, milliseconds. */
const SLOWEST_MS = 1_000;

/** Storage for a person's unsent signals. Only the window that holds the person's lock may write. */
export interface OutboxBook {
  /** True while stored entries survive the closing of this window. */
  lasting(): boolean;
  read(): Promise<Outbox>;
  /** Resolves when the outbox is stored, or when storing has failed. Never rejects, so that a stop is always sent. */
  write(outbox: Outbox): Promise<void>;
}

/**
 * Opens the outbox of one person on this device, in IndexedDB, which survives the window and the browser. When
 * IndexedDB fails, nothing more is stored and `lasting` returns false.
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

/** Resolves with the result of `work`. Rejects when `work` throws, rejects or takes longer than `ms`. */
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

/** Stores the whole outbox as one record, so that a later read gets one consistent state in order. */
async function writeOne(db: IDBPDatabase, person: string, outbox: Outbox): Promise<void> {
  // Relaxed durability: before a stop is sent, the write must have left this process but need not be on the disk.
  const tx = db.transaction(STORE, "readwrite", { durability: "relaxed" });
  await Promise.all([tx.store.put(outbox, person), tx.done]);
}

/** Returns the stored outbox. Drops an entry of an unknown shape, because the server would refuse it. */
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
