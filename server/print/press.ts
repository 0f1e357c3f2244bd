import { ProblemError } from "../http/problem.ts";

/** Makes the PDF of a job (`sheet-job.ts`). */
export interface Printer {
  print(lines: AsyncIterable<string>): Promise<Buffer>;
  close(): void;
}

/** A sheet somebody wants. */
export interface SheetOrder {
  /** Orders with the same key are for the same sheet. */
  key: string;
  /** Number of events of the record. */
  events: number;
  /** True when it prints every one of them. */
  whole: boolean;
  /** Reads the job. Called when its turn comes, so that waiting orders hold no memory. */
  lines(): AsyncIterable<string>;
}

/** Limits of the press. */
export const PRESS = {
  /** Events of a record's full log on paper. A start has some 2,000. */
  events: 12_000,
  /** A record of more events waits its turn apart, so that a brief never waits for it. */
  lightEvents: 3_000,
  /** Orders that wait, of one person and of all. */
  perPerson: 4,
  waiting: 40,
  /** Bytes and age of the sheets that are kept. A kept sheet says when it was printed. */
  keptBytes: 32 * 1024 * 1024,
  keptMs: 10 * 60_000,
} as const;

interface Waiting {
  person: string;
  order: SheetOrder;
  done(bytes: Buffer): void;
  failed(error: unknown): void;
}

/** Orders of one weight: one is printed at a time, and the person who was served longest ago is next. */
class Lane {
  readonly waiting: Waiting[] = [];
  readonly #print: (order: SheetOrder) => Promise<Buffer>;
  readonly #served = new Map<string, number>();
  #turn = 0;
  #busy = false;

  constructor(print: (order: SheetOrder) => Promise<Buffer>) {
    this.#print = print;
  }

  async add(one: Waiting): Promise<void> {
    this.waiting.push(one);
    if (this.#busy) return;
    this.#busy = true;
    for (let next = this.#next(); next; next = this.#next())
      await this.#print(next.order).then(next.done, next.failed);
    this.#served.clear();
    this.#busy = false;
  }

  #next(): Waiting | undefined {
    const last = ({ person }: Waiting) => this.#served.get(person) ?? 0;
    const [next] = [...this.waiting].sort((a, b) => last(a) - last(b));
    if (!next) return undefined;
    this.waiting.splice(this.waiting.indexOf(next), 1);
    this.#turn += 1;
    this.#served.set(next.person, this.#turn);
    return next;
  }
}

/** Prints sheets one after another, light and heavy ones apart, fairly by person, and keeps those just made. */
export class Press {
  readonly #printer: Printer;
  readonly #now: () => number;
  readonly #failed: (error: unknown) => void;
  readonly #light: Lane;
  readonly #heavy: Lane;
  readonly #coming = new Map<string, Promise<Buffer>>();
  /** Least recently used first. */
  readonly #kept = new Map<string, { bytes: Buffer; at: number }>();

  /** @param failed called with the cause when a sheet could not be made */
  constructor(printer: Printer, now: () => number, failed: (error: unknown) => void) {
    this.#printer = printer;
    this.#now = now;
    this.#failed = failed;
    const print = (order: SheetOrder) => this.#printer.print(order.lines());
    this.#light = new Lane(print);
    this.#heavy = new Lane(print);
  }

  /**
   * Returns the sheet's PDF.
   * @throws ProblemError when it is too large, too many wait, or it could not be made
   */
  async print(person: string, order: SheetOrder): Promise<Buffer> {
    const { key, events, whole } = order;
    if (whole && events > PRESS.events)
      throw new ProblemError(
        "tooLarge",
        `This record has ${events} events and its full log on paper takes ${PRESS.events}: print the short form, or export it`,
      );
    const kept = this.#kept.get(key);
    if (kept && this.#now() - kept.at < PRESS.keptMs) {
      this.#keep(key, kept);
      return kept.bytes;
    }
    let coming = this.#coming.get(key);
    if (!coming) {
      coming = this.#queue(person, order).finally(() => this.#coming.delete(key));
      this.#coming.set(key, coming);
    }
    return coming;
  }

  close(): void {
    this.#printer.close();
  }

  async #queue(person: string, order: SheetOrder): Promise<Buffer> {
    const all = [...this.#light.waiting, ...this.#heavy.waiting];
    if (all.filter((one) => one.person === person).length >= PRESS.perPerson)
      throw new ProblemError("tooMany", "Your other sheets are being made: wait for them", {
        retryAfterMs: 10_000,
      });
    if (all.length >= PRESS.waiting)
      throw new ProblemError("notAvailable", "Too many sheets are being made: ask again in a minute", {
        retryAfterMs: 60_000,
      });
    const lane = order.events > PRESS.lightEvents ? this.#heavy : this.#light;
    try {
      const bytes = await new Promise<Buffer>((done, failed) => {
        void lane.add({ person, order, done, failed });
      });
      this.#keep(order.key, { bytes, at: this.#now() });
      return bytes;
    } catch (error) {
      this.#failed(error);
      const detail = "The sheet could not be made: ask again, or export the record";
      throw new ProblemError("notAvailable", detail);
    }
  }

  #keep(key: string, sheet: { bytes: Buffer; at: number }): void {
    this.#kept.delete(key);
    this.#kept.set(key, sheet);
    let size = [...this.#kept.values()].reduce((sum, { bytes }) => sum + bytes.length, 0);
    for (const [oldest, { bytes }] of this.#kept) {
      if (size <= PRESS.keptBytes) return;
      this.#kept.delete(oldest);
      size -= bytes.length;
    }
  }
}
