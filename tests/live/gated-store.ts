import { type Append, RECORD_STAGE, StoreFailure } from "../../server/store/events.ts";
import { MemoryEventStore } from "../../server/store/memory-events.ts";

/** A store whose disk can be made to wait or to fail. */
export class GatedStore extends MemoryEventStore {
  broken = false;
  /** Number of appends to sessions, without those to the records of aircraft. */
  appends = 0;
  #gate: Promise<void> | null = null;
  #open: () => void = () => {};

  shut(): void {
    this.#gate = new Promise((resolve) => {
      this.#open = resolve;
    });
  }

  open(): void {
    this.#gate = null;
    this.#open();
  }

  override async append(append: Append): Promise<void> {
    if (this.#gate) await this.#gate;
    if (this.broken) throw new StoreFailure("the disk is full");
    if (append.row.stage !== RECORD_STAGE) this.appends += 1;
    return super.append(append);
  }

  override async probe(): Promise<void> {
    if (this.broken) throw new StoreFailure("the disk is full");
  }
}
