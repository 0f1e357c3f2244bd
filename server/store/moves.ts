/** A session or an aircraft's own record, and how far it goes. */
export interface IndexedHead {
  id: string;
  headSeq: number;
  aircraft: string;
  stage: string;
}

export const headOf = ({ id, headSeq, aircraft, stage }: IndexedHead): IndexedHead => ({
  ...{ id, headSeq, aircraft, stage },
});

/** Moves that are remembered. Whoever asks less often than that compares everything. */
const REMEMBERED = 20_000;

/** The sessions that moved since a mark; `all`: everything that there is, because the mark is older than what is remembered. */
export interface Moved {
  all: boolean;
  /** Each with its newest head, once. */
  heads: IndexedHead[];
  /** Removed sessions. */
  gone: string[];
  /** The mark to ask with the next time. */
  mark: string;
}

/** Remembers which sessions moved, in a store that this process alone writes. */
export class Moves {
  #first = 0;
  #log: { id: string; head: IndexedHead | null }[] = [];
  /** Marks of another process are not of this one. */
  readonly #own: string;

  /** @param own names this process's marks */
  constructor(own: string) {
    this.#own = own;
  }

  /** @param head null when the session was removed */
  note(id: string, head: IndexedHead | null): void {
    this.#log.push({ id, head });
    if (this.#log.length <= 2 * REMEMBERED) return;
    this.#log = this.#log.slice(REMEMBERED);
    this.#first += REMEMBERED;
  }

  get mark(): string {
    return `${this.#own} ${this.#first + this.#log.length}`;
  }

  /** Returns what moved since a mark; null when that is not remembered. */
  since(mark: string | null): Omit<Moved, "all"> | null {
    const [own, at] = mark?.split(" ") ?? [];
    if (own !== this.#own || Number(at) < this.#first) return null;
    const last = new Map(this.#log.slice(Number(at) - this.#first).map(({ id, head }) => [id, head]));
    return {
      heads: [...last.values()].filter((head) => head !== null),
      gone: [...last].flatMap(([id, head]) => (head === null ? [id] : [])),
      mark: this.mark,
    };
  }
}
