import {
  erasedName,
  mapNames,
  type Opening,
  pseudonymOf,
  pseudonymsIn,
  withNames,
} from "../../shared/evidence/pseudonyms.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import type { RecordEvent } from "../../shared/protocol/recordEvents.ts";
import { sha256 } from "../sha256.ts";
import type { NameRecord, PersonalStore } from "../store/personal.ts";

export type Named = Pick<NameRecord, "personId" | "name">;

/** Replaces names by pseudonyms before events are sealed, and back. */
export interface Pseudonyms {
  /**
   * Returns the event with pseudonyms for names. Unknown names are stored without a pseudonym; appending never waits
   * for a lookup.
   */
  pseudonymise<E extends SessionEvent | RecordEvent>(event: E): E;
  /** Loads the names behind pseudonyms in these sealed bytes that this server does not know yet. */
  loadFor(bodies: readonly string[]): Promise<void>;
  /** Returns the sealed bytes with the names in them, for reading. */
  reveal(body: string): string;
}

/** Leaves names unchanged. */
export const noPseudonyms: Pseudonyms = {
  pseudonymise: (event) => event,
  loadFor: async () => {},
  reveal: (body) => body,
};

/** Keeps every name with its salt and pseudonym in memory. */
export class Names implements Pseudonyms {
  readonly #store: PersonalStore;
  readonly #salt: () => string;
  readonly #openings = new Map<string, Opening>();
  readonly #pseudonymOfPerson = new Map<string, { name: string; pseudonym: string }>();
  readonly #pseudonymOfName = new Map<string, string>();

  private constructor(store: PersonalStore, salt: () => string) {
    this.#store = store;
    this.#salt = salt;
  }

  /** @param salt returns 128 random bits, hexadecimal */
  static async open(store: PersonalStore, people: readonly Named[], salt: () => string): Promise<Names> {
    const names = new Names(store, salt);
    names.#take(await store.names());
    await names.know(people);
    return names;
  }

  /** Makes a pseudonym for each new name, and stores it before its first use. */
  async know(people: readonly Named[]): Promise<void> {
    const fresh = people
      .filter(({ personId, name }) => this.#pseudonymOfPerson.get(personId)?.name !== name)
      .map(({ personId, name }) => ({ personId, name, salt: this.#salt() }));
    if (fresh.length === 0) return;
    await this.#store.addNames(fresh);
    this.#take(fresh);
  }

  pseudonymise<E extends SessionEvent | RecordEvent>(event: E): E {
    return mapNames(event, (name, id) => {
      const own = id === null ? undefined : this.#pseudonymOfPerson.get(id);
      return own?.name === name ? own.pseudonym : (this.#pseudonymOfName.get(name) ?? name);
    });
  }

  async loadFor(bodies: readonly string[]): Promise<void> {
    const strange = bodies.some((body) =>
      [...pseudonymsIn(body)].some((pseudonym) => !this.#openings.has(pseudonym)),
    );
    // Another server may have added a person.
    if (strange) this.#take(await this.#store.names());
  }

  reveal(body: string): string {
    return withNames(body, (pseudonym) => this.#openings.get(pseudonym)?.name ?? erasedName(pseudonym));
  }

  /** Returns the names that are stored now, present and former ones, each with its pseudonym. */
  async named(): Promise<{ name: string; pseudonym: string }[]> {
    return (await this.#store.names()).map(({ name, salt }) => ({
      name,
      pseudonym: pseudonymOf({ name, salt }, sha256),
    }));
  }

  /** Returns name and salt of those pseudonyms that were not erased. */
  openings(pseudonyms: Iterable<string>): Record<string, Opening> {
    const known = [...pseudonyms].sort().flatMap((pseudonym): [string, Opening][] => {
      const opening = this.#openings.get(pseudonym);
      return opening ? [[pseudonym, opening]] : [];
    });
    return Object.fromEntries(known);
  }

  #take(records: readonly NameRecord[]): void {
    for (const { personId, name, salt } of records) {
      const pseudonym = pseudonymOf({ name, salt }, sha256);
      this.#openings.set(pseudonym, { name, salt });
      this.#pseudonymOfPerson.set(personId, { name, pseudonym });
      this.#pseudonymOfName.set(name, pseudonym);
    }
  }
}
