import { type ChainEnd, followsOn, genesis } from "../../shared/evidence/chain.ts";
import { sha256 } from "../sha256.ts";
import type { SessionRow, StoredEvent } from "./events.ts";

/** Result of a check of every session's hash chain. */
export interface Chains {
  sessions: number;
  /** Events checked and found good. */
  events: number;
  /** All events, by the sessions' rows. */
  of: number;
  /** True when time ran out: the remaining events were not checked. */
  late: boolean;
  /** Each session with a broken chain: its code, and the number of the first event that does not fit. */
  broken: { code: string; seq: number }[];
}

export type ChainHead = Pick<SessionRow, "id" | "code" | "headSeq" | "headHash">;
export type ChainLine = Pick<StoredEvent, "seq" | "body" | "hash"> & { session: string };

/** Events read between two checks of the time. */
export const PAGE = 1_000;

/** Checks the hash chain of every session, from its first event to the head in its row. */
export class ChainWalk {
  readonly #heads: ReadonlyMap<string, ChainHead>;
  readonly #found: Chains;
  readonly #met = new Set<string>();
  #session = "";
  /** Null when the session's chain is broken. */
  #last: ChainEnd | null = null;

  constructor(heads: readonly ChainHead[]) {
    this.#heads = new Map(heads.map((head) => [head.id, head]));
    const of = heads.reduce((sum, { headSeq }) => sum + headSeq, 0);
    this.#found = { sessions: heads.length, events: 0, of, late: false, broken: [] };
  }

  /** @param line the next event, ordered by session and number */
  take(line: ChainLine): void {
    if (line.session !== this.#session || this.#met.size === 0) this.#begin(line.session);
    if (this.#last === null) return;
    if (followsOn(line.session, this.#last, line, sha256)) {
      this.#found.events += 1;
      this.#last = line;
    } else this.#broken(this.#last.seq + 1);
  }

  /**
   * Returns the result.
   * @param late true when events are left unchecked
   */
  end(late: boolean): Chains {
    if (!late) {
      this.#close();
      for (const [id, { code }] of this.#heads)
        if (!this.#met.has(id)) this.#found.broken.push({ code, seq: 1 });
    }
    return { ...this.#found, late };
  }

  #begin(session: string): void {
    this.#close();
    this.#session = session;
    this.#met.add(session);
    this.#last = { seq: 0, hash: genesis(session, sha256) };
    // The session's row is missing, so the session is missing from every list.
    if (!this.#heads.has(session)) this.#broken(1);
  }

  #close(): void {
    const head = this.#heads.get(this.#session);
    if (!head || this.#last === null) return;
    const { seq, hash } = this.#last;
    if (seq !== head.headSeq || hash !== head.headHash) this.#broken(seq + 1);
  }

  #broken(seq: number): void {
    const code = this.#heads.get(this.#session)?.code ?? `the lost session ${this.#session}`;
    this.#found.broken.push({ code, seq });
    this.#last = null;
  }
}
