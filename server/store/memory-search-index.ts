import type { IndexEntry, KeptStarts, Position, SearchIndex, Term, Wanted } from "./search-index.ts";

/** A search index in memory, to try Chockside out and for tests. */
export class MemorySearchIndex implements SearchIndex {
  readonly #heads = new Map<string, number>();
  readonly #starts = new Map<string, KeptStarts>();
  #entries: IndexEntry[] = [];

  async heads(ids?: readonly string[]): Promise<Map<string, number>> {
    if (ids)
      return new Map(ids.flatMap((id) => (this.#heads.has(id) ? [[id, this.#heads.get(id) ?? 0]] : [])));
    return new Map(this.#heads);
  }

  async put(session: string, from: number, head: number, entries: readonly IndexEntry[]): Promise<void> {
    if ((this.#heads.get(session) ?? 0) !== from) return;
    this.#heads.set(session, head);
    this.#entries = [...this.#entries, ...entries].sort(newestFirst);
  }

  async forget(session: string): Promise<void> {
    this.#heads.delete(session);
    this.#starts.delete(session);
    this.#entries = this.#entries.filter((e) => e.session !== session);
  }

  async find({ terms, aircraft, kind, from, to, before, limit }: Wanted): Promise<IndexEntry[]> {
    return this.#entries
      .filter(
        (e) =>
          (aircraft === null || e.aircraft === aircraft) &&
          (kind === null || e.kind === kind) &&
          (from === null || e.at >= from) &&
          (to === null || e.at < to) &&
          (before === null || newestFirst(before, e) < 0) &&
          terms.every((term) => meets(e.tokens, term)),
      )
      .slice(0, limit);
  }

  async keepStarts(kept: KeptStarts): Promise<void> {
    this.#starts.set(kept.session, kept);
  }

  async startsOf(sessions: readonly string[]): Promise<KeptStarts[]> {
    return sessions.flatMap((id) => this.#starts.get(id) ?? []);
  }

  async startHeads(ids?: readonly string[]): Promise<Map<string, string>> {
    const kept = await this.startsOf(ids ?? [...this.#starts.keys()]);
    return new Map(kept.map(({ session, headHash }) => [session, headHash]));
  }

  async close(): Promise<void> {}
}

const meets = (tokens: readonly string[], { prefix, or }: Term) =>
  tokens.some((token) => token.startsWith(prefix) || or.includes(token));

function newestFirst(a: Position, b: Position): number {
  if (a.at !== b.at) return b.at - a.at;
  if (a.session !== b.session) return a.session < b.session ? 1 : -1;
  return b.seq - a.seq || b.part - a.part;
}
