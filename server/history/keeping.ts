import { isRehearsalId } from "../../shared/protocol/rehearsal.ts";
import type { Timers } from "../clock.ts";
import type { Job } from "../many/duty.ts";
import type { EventStore } from "../store/events.ts";
import type { SearchIndex } from "../store/search-index.ts";
import type { StartHistories } from "./starts.ts";

/** Interval between looks for sessions that ended. Milliseconds. */
const LOOK_MS = 60_000;
/** Pause after each session, so that a record of years takes a small part of the processor. Milliseconds. */
const PAUSE_MS = 50;

const OVER: ReadonlySet<string> = new Set(["closed", "abandoned"]);

interface Needs {
  store: Pick<EventStore, "moved" | "session">;
  index: Pick<SearchIndex, "startHeads">;
  starts: Pick<StartHistories, "keep">;
  timers: Timers;
  log: { error(detail: object, message: string): void };
}

/**
 * Works out the starts of each session soon after it ended, one session at a time, so that nobody who opens a page of
 * the history waits for it.
 */
export class StartsKeeping implements Job {
  readonly #needs: Needs;
  /** Up to here it is known what moved. */
  #mark: string | null = null;
  /** Ended sessions whose starts may not be kept yet. */
  #due: string[] = [];
  #stop = () => {};
  #closed = false;
  #working: Promise<void> = Promise.resolve();

  private constructor(needs: Needs) {
    this.#needs = needs;
  }

  static async begin(needs: Needs): Promise<StartsKeeping> {
    const keeping = new StartsKeeping(needs);
    keeping.#after(PAUSE_MS);
    return keeping;
  }

  /** Resolves once no session is being worked out, and begins none any more. */
  async close(): Promise<void> {
    this.#closed = true;
    this.#stop();
    await this.#working;
  }

  #after(ms: number): void {
    if (this.#closed) return;
    this.#stop = this.#needs.timers.after(ms, () => {
      this.#working = this.#step().then(
        () => this.#after(this.#due.length > 0 ? PAUSE_MS : LOOK_MS),
        (err) => {
          this.#needs.log.error({ err }, "the starts of ended sessions could not be kept");
          this.#after(LOOK_MS);
        },
      );
    });
  }

  /** Looks for ended sessions, or works out the next one. */
  async #step(): Promise<void> {
    if (this.#due.length === 0) await this.#look();
    else await this.#next();
  }

  async #look(): Promise<void> {
    const { store, index } = this.#needs;
    const { all, heads, mark } = await store.moved(this.#mark);
    const over = heads.filter(({ id, stage }) => OVER.has(stage) && !isRehearsalId(id)).map(({ id }) => id);
    const kept = await index.startHeads(all ? undefined : over);
    // A start of a server compares ids alone; a session that went on after its end is read anew where it is asked for.
    this.#due = all ? over.filter((id) => !kept.has(id)) : over;
    this.#mark = mark;
  }

  async #next(): Promise<void> {
    const { store, index, starts } = this.#needs;
    // One that fails is not tried again: it would keep the others from their turn, and is read when it is asked for.
    const id = this.#due.pop();
    if (id === undefined) return;
    const session = await store.session(id);
    const kept = (await index.startHeads([id])).get(id);
    if (session && session.closedAt !== null && kept !== session.headHash) await starts.keep(session);
  }
}
