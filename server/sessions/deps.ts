import type { ShownEquipment } from "../../shared/session/verdict.ts";
import type { AircraftRecords } from "../aircraft/records.ts";
import type { Clock, Timers } from "../clock.ts";
import type { Pseudonyms } from "../evidence/names.ts";
import type { Currencies } from "../house/currencies.ts";
import type { Bus } from "../many/bus.ts";
import { type EventStore, StoreFailure } from "../store/events.ts";

/** Log lines for the server's operator. */
export interface SessionLog {
  error(detail: object, message: string): void;
  info(detail: object, message: string): void;
}

export interface SessionsDeps {
  store: EventStore;
  clock: Clock & { recorded(at: number): void };
  timers: Timers;
  log: SessionLog;
  names: Pseudonyms;
  /** Asked to sign a checkpoint of the record so far. Never awaited. */
  notary: { due(session: string, size: number): void };
  bus: Bus;
  /** Keeps what stands at each aircraft across its sessions. */
  records: AircraftRecords;
  /** Decides who may take a post, and notes who made which start. */
  currencies: Pick<Currencies, "standing" | "closed">;
  /** Finds a piece of equipment by its label. */
  equipment: { shown(label: string): Promise<ShownEquipment | null> };
  /** Runs `work` while no other server runs work with a common key. */
  inTurn<T>(keys: readonly string[], work: () => Promise<T>): Promise<T>;
}

/** Resolves to what an append resolves to; logs that events could not be kept. */
export async function kept<T>({ log }: SessionsDeps, append: Promise<T>): Promise<T> {
  try {
    return await append;
  } catch (error) {
    if (error instanceof StoreFailure) log.error({ err: error }, "events could not be kept");
    throw error;
  }
}
