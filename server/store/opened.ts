import type { MachineClocks } from "../clock.ts";
import type { Duty } from "../many/duty.ts";
import type { ProgressStore } from "../webhooks/progress.ts";
import type { Directory } from "./directory.ts";
import type { EventStore } from "./events.ts";
import type { SearchIndex } from "./search-index.ts";

type DutyLog = Record<"info" | "error", (detail: object, message: string) => void>;

/** The databases of a server, or of a command beside it. */
export interface Stores {
  store: EventStore;
  directory: Directory;
  /** Of everything written. It is made when it is first opened, and is no part of the evidence. */
  openIndex(): Promise<SearchIndex>;
  /** Makes removed data unreadable in the files too, as far as the database can. */
  compact(): Promise<void>;
  clocks: MachineClocks;
  /** Begins to serve among other servers on the database; null when only one server can use it. */
  enter: ((alone: () => Promise<void>) => Promise<void>) | null;
  /** Shared by several servers on the database besides the record; null when only one server can use it. */
  shared: { duty(log: DutyLog): Duty; webhooks: ProgressStore } | null;
  close(): Promise<void>;
}
