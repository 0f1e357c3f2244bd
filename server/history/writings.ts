import { setImmediate } from "node:timers/promises";
import { pseudonymsIn } from "../../shared/evidence/pseudonyms.ts";
import { readSealed, readSealedRecord } from "../../shared/evidence/read.ts";
import { WITH_WRITING, writtenIn, writtenInRecord } from "../../shared/history/written/find.ts";
import { folded } from "../../shared/history/written/fold.ts";
import { type Written, writtenSchema } from "../../shared/history/written/written.ts";
import { isRehearsalId, isRehearsedAircraft } from "../../shared/protocol/rehearsal.ts";
import { outcomesOf } from "../../shared/words/outcomes.ts";
import { SPOKEN } from "../../shared/words/spoken.ts";
import type { Names } from "../evidence/names.ts";
import { OneAtATime } from "../one-at-a-time.ts";
import { type EventStore, RECORD_STAGE, type StoredEvent } from "../store/events.ts";
import type { IndexedHead } from "../store/moves.ts";
import type { IndexEntry, SearchIndex, Term, Wanted } from "../store/search-index.ts";

const PAGE = 200;
/** Events that one request reads before it answers from what is indexed. */
const READ_AT_ONCE = 2_000;
/** Words of a question that are looked for. */
const MOST_TERMS = 8;

/** A question in words, narrowed as the index narrows. */
export interface Question extends Omit<Wanted, "terms"> {
  words: string;
}

export interface Answer {
  /** People are named as they are known now. */
  found: Written[];
  /** True when there are more after these. */
  more: boolean;
  /** Sessions and records of which the index has not read everything yet. */
  unread: number;
}

export interface WritingsDeps {
  store: Pick<EventStore, "moved" | "read">;
  index: SearchIndex;
  names: Pick<Names, "named" | "loadFor" | "reveal">;
  log: { error(detail: object, message: string): void };
}

/**
 * Finds what was written in the records. The index is read on from the sealed events when something is asked: it holds
 * nothing that they do not hold. It holds people as the sealed record names them, so that a name is found only while
 * the house knows it.
 */
export class Writings {
  readonly #deps: WritingsDeps;
  /** Up to here it is known what moved. */
  #mark: string | null = null;
  /** Records of which the index has not read everything. */
  readonly #behind = new Map<string, IndexedHead>();
  /** A second reading at the same time would read the same again. */
  readonly #reading = new OneAtATime();
  #rest: Promise<void> | null = null;
  #closed = false;

  constructor(deps: WritingsDeps) {
    this.#deps = deps;
  }

  /** @throws StoreFailure */
  async find({ words, limit, ...filters }: Question): Promise<Answer> {
    await this.#reading.run(() => this.#look());
    // A read of the rest that has begun goes on beside the answer.
    if (this.#rest === null) await this.#reading.run(() => this.#readOn(READ_AT_ONCE));
    const unread = this.#behind.size;
    if (unread > 0) this.#rest ??= this.#readRest();
    const { index, names } = this.#deps;
    const terms = await this.#terms(words);
    const found = await index.find({ ...filters, terms, limit: limit + 1 });
    const bodies = found.slice(0, limit).map(({ body }) => body);
    await names.loadFor(bodies);
    return {
      found: bodies.map((body) => writtenSchema.parse(JSON.parse(names.reveal(body)))),
      more: found.length > limit,
      unread,
    };
  }

  /** Resolves once no reading is under way, and begins none any more. */
  async close(): Promise<void> {
    this.#closed = true;
    await this.#rest;
  }

  async #readRest(): Promise<void> {
    try {
      while (!this.#closed && this.#behind.size > 0) {
        await this.#reading.run(() => this.#readOn(READ_AT_ONCE));
        await setImmediate();
      }
    } catch (error) {
      this.#deps.log.error({ err: error }, "the search index could not be read on");
    } finally {
      this.#rest = null;
    }
  }

  /**
   * Learns which records moved since the last look: it costs as much as there is new. The first look, and one after very
   * many moves, compares everything.
   */
  async #look(): Promise<void> {
    const { store, index } = this.#deps;
    const { all, heads, gone, mark } = await store.moved(this.#mark);
    const searched = heads.filter(({ id, aircraft }) => !isRehearsalId(id) && !isRehearsedAircraft(aircraft));
    const known = await index.heads(all ? undefined : searched.map(({ id }) => id));
    const there = new Set(searched.map(({ id }) => id));
    const over = all ? [...known.keys()].filter((id) => !there.has(id)) : gone;
    for (const id of over) {
      await index.forget(id);
      this.#behind.delete(id);
    }
    for (const head of searched)
      if ((known.get(head.id) ?? 0) < head.headSeq) this.#behind.set(head.id, head);
    // Only now: a look that failed is made again.
    this.#mark = mark;
  }

  /** Reads on until about `most` events are read. */
  async #readOn(most: number): Promise<void> {
    let read = 0;
    for (const head of [...this.#behind.values()]) {
      if (read >= most) return;
      // Another server may have read on meanwhile.
      const from = (await this.#deps.index.heads([head.id])).get(head.id) ?? 0;
      read += Math.max(0, head.headSeq - from);
      await this.#readSession(head, from);
      this.#behind.delete(head.id);
    }
  }

  async #readSession(head: IndexedHead, from: number): Promise<void> {
    const { store, index } = this.#deps;
    const entries: IndexEntry[] = [];
    let at = from;
    while (at < head.headSeq) {
      const page = await store.read(head.id, at, Math.min(PAGE, head.headSeq - at));
      // It was removed meanwhile.
      if (page.length === 0) return;
      for (const event of page) entries.push(...entriesOf(event, head));
      at += page.length;
      // A search must not keep a signal waiting.
      await setImmediate();
    }
    await index.put(head.id, from, head.headSeq, entries);
  }

  async #terms(words: string): Promise<Term[]> {
    const people = await this.#deps.names.named();
    return [...new Set(folded(words))].slice(0, MOST_TERMS).map((prefix) => ({
      prefix,
      or: people
        .filter(({ name }) => folded(name).some((part) => part.startsWith(prefix)))
        .map(({ pseudonym }) => tokenOf(pseudonym)),
    }));
  }
}

/** Returns what the index holds of one stored event. */
export function entriesOf(stored: StoredEvent, { aircraft, stage }: IndexedHead): IndexEntry[] {
  if (!WITH_WRITING.has(stored.type)) return [];
  const found =
    stage === RECORD_STAGE
      ? writtenInRecord(readSealedRecord(stored.body).event, aircraft)
      : writtenIn(readSealed(stored.body).event, aircraft);
  return found.map((written) => {
    const { session, seq, part, at, kind } = written;
    return {
      session,
      seq,
      part,
      at,
      aircraft,
      kind,
      tokens: tokensOf(written),
      body: JSON.stringify(written),
    };
  });
}

function tokensOf({ aircraft, by, people, words, refused }: Written): string[] {
  const text = [aircraft, words ?? "", ...(refused ? refusalWords(refused) : [])];
  const named = [by ?? "", ...people].flatMap((name) => {
    const [pseudonym] = pseudonymsIn(JSON.stringify(name));
    return pseudonym === undefined ? folded(name) : [tokenOf(pseudonym)];
  });
  return [...new Set([...text.flatMap(folded), ...named])].sort();
}

/** Returns what a refusal said, in every language: people look for it in their own. */
function refusalWords({ reason, conditions }: NonNullable<Written["refused"]>): string[] {
  return Object.values(SPOKEN).flatMap((say) => [
    outcomesOf(say).anyRefusal(reason),
    ...conditions.map((id) => say.conditionName(id)),
  ]);
}

/** Returns the token of a pseudonym. No word of a question can be one: those hold letters and digits only. */
const tokenOf = (pseudonym: string): string => `_${pseudonym.slice("person:".length)}`;
