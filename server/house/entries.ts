import {
  firstEntry,
  type RegisterEntry,
  type Registered,
  type RegisterKind,
} from "../../shared/house/register.ts";
import type { Post } from "../../shared/protocol/posts.ts";
import type { Clock } from "../clock.ts";
import type { Directory } from "../store/directory.ts";
import { HouseRefused } from "./refused.ts";

/** A person who changes the register. */
export interface By {
  id: string;
  name: string;
  mayHold: readonly Post[];
}

/** Changes of one thing that are shown: more would only repeat small ones. */
export const CHANGES = 100;

/** The entries of one kind in the register. Every method may throw HouseRefused. */
export class Entries<K extends RegisterKind> {
  readonly #kind: K;
  readonly #directory: Directory;
  readonly #clock: Clock;
  /** The kind in words, such as "aircraft". */
  readonly #word: string;

  constructor(kind: K, word: string, directory: Directory, clock: Clock) {
    this.#kind = kind;
    this.#word = word;
    this.#directory = directory;
    this.#clock = clock;
  }

  /** Returns the newest entry of each, by id. */
  all(): Promise<RegisterEntry<K>[]> {
    return this.#directory.register.all(this.#kind);
  }

  async one(id: string): Promise<RegisterEntry<K>> {
    const found = await this.#directory.register.one(this.#kind, id);
    if (!found) throw this.none(id);
    return found;
  }

  /** Returns the entry, if it is still at `revision`. */
  async at(id: string, revision: number): Promise<RegisterEntry<K>> {
    const now = await this.one(id);
    if (now.revision !== revision) throw stale(id);
    return now;
  }

  /** Returns the last changes, the newest first. */
  async history(id: string): Promise<RegisterEntry<K>[]> {
    const entries = await this.#directory.register.history(this.#kind, id, CHANGES);
    if (entries.length === 0) throw this.none(id);
    return entries;
  }

  /** Adds something new. Two ids that differ in capitals alone are one. */
  async add(by: By, body: Registered<K>): Promise<RegisterEntry<K>> {
    const same = (await this.all()).find((e) => e.id.toLowerCase() === body.id.toLowerCase());
    const entry = firstEntry(this.#kind, body, by.id, this.#clock.now());
    if (same || !(await this.#directory.register.append([entry])))
      throw new HouseRefused("taken", `${same?.id ?? body.id} is in the register already`);
    return entry;
  }

  /** Adds the next state of something. */
  async put(
    { id, revision }: Pick<RegisterEntry<K>, "id" | "revision">,
    by: By,
    body: Registered<K>,
    reason: string | null,
  ): Promise<RegisterEntry<K>> {
    const entry: RegisterEntry<K> = {
      ...{ kind: this.#kind, id, revision: revision + 1 },
      ...{ at: this.#clock.now(), by: by.id, reason, body },
    };
    if (!(await this.#directory.register.append([entry]))) throw stale(id);
    return entry;
  }

  none(id: string): HouseRefused {
    return new HouseRefused("notFound", `There is no ${this.#word} ${id} in the register`);
  }
}

/** @throws HouseRefused unless the person is qualified as supervisor */
export function asSupervisor({ name, mayHold }: By): void {
  if (!mayHold.includes("supervisor"))
    throw new HouseRefused("notQualified", `${name} is not qualified as supervisor`);
}

/** The refusal of a change to what somebody else changed meanwhile. */
export function stale(id: string): HouseRefused {
  return new HouseRefused(
    "stale",
    `${id} was changed after you read it: read it again, then make your change anew`,
  );
}
