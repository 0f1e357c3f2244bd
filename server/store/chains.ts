import { followsOn, genesis, type Link } from "../../shared/evidence/chain.ts";
import { sha256 } from "../sha256.ts";
import type { SessionRow, StoredEvent } from "./events.ts";

/** What following every session's chain found. */
export interface Chains {
  sessions: number;
  /** Events that were followed and hold. */
  events: number;
  /** Events there are, as the sessions' rows say. */
  of: number;
  /** Time ran out before the end: what lies behind was not looked at. */
  late: boolean;
  /** Code of each session whose record does not hold, and the number of the first event that does not follow. */
  broken: { code: string; seq: number }[];
}

export type ChainHead = Pick<SessionRow, "id" | "code" | "headSeq" | "headHash">;
export type ChainLine = Pick<StoredEvent, "seq" | "body" | "hash"> & { session: string };

/** How many lines are read between two looks at the time. */
export const PAGE = 1_000;

/** Follows the chain of every session, from its first event to the head its row names. */
export class ChainWalk {
  readonly #heads: ReadonlyMap<string, ChainHead>;
  readonly #found: Chains;
  readonly #met = new Set<string>();
  #session = "";
  /** Null where the session's chain is broken already. */
  #last: Link | null = null;

  constructor(heads: readonly ChainHead[]) {
    this.#heads = new Map(heads.map((head) => [head.id, head]));
    const of = heads.reduce((sum, { headSeq }) => sum + headSeq, 0);
    this.#found = { sessions: heads.length, events: 0, of, late: false, broken: [] };
  }

  /** @param line the next by session and number */
  take(line: ChainLine): void {
    if (line.session !== this.#session || this.#met.size === 0) this.#begin(line.session);
    if (this.#last === null) return;
    if (followsOn(line.session, this.#last, line, sha256)) {
      this.#found.events += 1;
      this.#last = line;
    } else this.#broken(this.#last.seq + 1);
  }

  /** What was found. @param late whether lines were left */
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
    // Somebody took the session's row out, and with it the session out of every list.
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
