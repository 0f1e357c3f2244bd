import type { RegisterEntry } from "../../shared/house/register.ts";
import { line } from "../../shared/protocol/text.ts";
import { enteredBy } from "../../shared/types/enteredBy.ts";
import { unsourced } from "../../shared/types/unsourced.ts";
import { readAircraftType } from "../../shared/types/validate.ts";
import type { Clock } from "../clock.ts";
import { Entries, stale } from "../house/entries.ts";
import { nameById } from "../house/names.ts";
import type { Directory, Named } from "../store/directory.ts";
import {
  authorLine,
  type DraftPlace,
  type Engineer,
  faulty,
  ofSize,
  qualified,
  type TypeDrafts,
} from "./drafts.ts";
import { TypeRefused } from "./refused.ts";

type Entry = RegisterEntry<"begunType">;

/** States of one begun type that are read for its authors. */
const STATES = 10_000;
const nameSchema = line(60);

/**
 * Types that somebody begins from nothing. What is entered is kept as it is, gaps and faults included, in the house's
 * register; once it is in order it becomes the first draft of its type. Every method may throw TypeRefused, and HouseRefused where
 * somebody else was first.
 */
export class BegunTypes {
  readonly #directory: Directory;
  readonly #entries: Entries<"begunType">;
  readonly #drafts: TypeDrafts;

  constructor(directory: Directory, clock: Clock, drafts: TypeDrafts) {
    this.#directory = directory;
    this.#entries = new Entries("begunType", "begun type", directory, clock);
    this.#drafts = drafts;
  }

  /** Returns the types that are begun and not finished, by id. */
  async list(): Promise<Entry[]> {
    const there = new Set((await this.#directory.types()).map((t) => t.id));
    const all = await this.#entries.all();
    return all.filter(({ id, body }) => !body.givenUp && !there.has(id));
  }

  async one(id: string): Promise<Entry> {
    const found = (await this.list()).find((e) => e.id === id);
    if (!found) throw new TypeRefused("notFound", `No unfinished type ${id} is there`);
    return found;
  }

  /** Begins a type of which only the identifier, the name and the number of engines are known. */
  begin(by: Engineer, to: { id: string; name: string; engines: number }): Promise<Entry> {
    qualified(by);
    const { id, name } = to;
    return this.#inTurn(id, async () => {
      if ((await this.#directory.types()).some((t) => t.id === id))
        throw new TypeRefused("taken", `There is a type ${id} already: make a draft of it`);
      const now = await this.#directory.register.one("begunType", id);
      if (now && !now.body.givenUp)
        throw new TypeRefused("taken", `A type ${id} is begun already: go on with it`);
      const engines = Array.from({ length: to.engines }, (_, i) => ({ n: i + 1 }));
      const body = { id, name, entered: { name, engines }, givenUp: false };
      return this.#entries.put({ id, revision: now?.revision ?? 0 }, by, body, null);
    });
  }

  /** Replaces what was entered, if it is still at `revision`. Each figure then says who entered it. */
  change(by: Engineer, id: string, revision: number, data: Record<string, unknown>): Promise<Entry> {
    qualified(by);
    ofSize(data);
    return this.#inTurn(id, async () => {
      const now = await this.#at(id, revision);
      if (!isText(data))
        throw faulty([{ path: "", message: "must not hold control or invisible characters" }]);
      const entered = enteredBy(now.body.entered, data, by.name) as Record<string, unknown>;
      const name = nameSchema.safeParse(entered.name);
      const body = { ...now.body, name: name.success ? name.data : now.body.name, entered };
      return this.#entries.put(now, by, body, null);
    });
  }

  /** Gives it up, if it is still at `revision`. */
  giveUp(by: Engineer, id: string, revision: number): Promise<Entry> {
    qualified(by);
    return this.#inTurn(id, async () => {
      const now = await this.#at(id, revision);
      return this.#entries.put(now, by, { ...now.body, givenUp: true }, null);
    });
  }

  /** Makes it the first draft of its type, if it is still at `revision` and in order. */
  finish(by: Engineer, id: string, revision: number): Promise<DraftPlace> {
    qualified(by);
    return this.#inTurn(id, async () => {
      const now = await this.#at(id, revision);
      const authors = await this.#authors(id, by);
      const set = { id, version: 1, author: authorLine(authors), approvedBy: null };
      const read = readAircraftType({ ...now.body.entered, ...set });
      if ("faults" in read) throw faulty(read.faults);
      const lacks = unsourced(read.type);
      if (lacks.length > 0) throw faulty(lacks);
      return this.#drafts.fromBegun(read.type, authors);
    });
  }

  /** Returns everybody who made a state of it, the first one first. */
  async #authors(id: string, by: Engineer): Promise<Named[]> {
    const named = await nameById(this.#directory);
    const states = await this.#directory.register.history("begunType", id, STATES);
    const ids = [...states.map((e) => e.by).reverse(), by.id];
    return [...new Set(ids)].map((person) => ({ id: person, name: named(person) }));
  }

  async #at(id: string, revision: number): Promise<Entry> {
    const now = await this.one(id);
    if (now.revision !== revision) throw stale(id);
    return now;
  }

  /** Runs the work while no other server does anything with this type. */
  #inTurn<T>(id: string, work: () => Promise<T>): Promise<T> {
    return this.#directory.inTurn([`begunType ${id}`], work);
  }
}

/** Returns false if any text in it could not be stored. */
function isText(value: unknown): boolean {
  if (typeof value === "string") return value.isWellFormed();
  if (typeof value !== "object" || value === null) return true;
  return Object.entries(value).every(([key, inner]) => key.isWellFormed() && isText(inner));
}
