import {
  erasedName,
  mapNames,
  type Opening,
  unveiled,
  veilOf,
  veilsIn,
} from "../../shared/evidence/names.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import { sha256 } from "../sha256.ts";
import type { NameRecord, PersonalStore } from "../store/personal.ts";

export type Named = Pick<NameRecord, "personId" | "name">;

/** Replaces names by pseudonyms before events are sealed, and back. */
export interface NameVeil {
  /**
   * Returns the event with pseudonyms for names. Unknown names are stored without a pseudonym; appending never waits
   * for a lookup.
   */
  veil(event: SessionEvent): SessionEvent;
  /** Loads the names behind pseudonyms in these sealed bytes that this server does not know yet. */
  meet(bodies: readonly string[]): Promise<void>;
  /** Returns the sealed bytes with the names in them, for reading. */
  open(body: string): string;
}

/** Leaves names unchanged. */
export const asStored: NameVeil = { veil: (event) => event, meet: async () => {}, open: (body) => body };

/** Keeps every name with its salt and pseudonym in memory. */
export class Names implements NameVeil {
  readonly #store: PersonalStore;
  readonly #salt: () => string;
  readonly #openings = new Map<string, Opening>();
  readonly #veilOfPerson = new Map<string, { name: string; veil: string }>();
  readonly #veilOfName = new Map<string, string>();

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
      .filter(({ personId, name }) => this.#veilOfPerson.get(personId)?.name !== name)
      .map(({ personId, name }) => ({ personId, name, salt: this.#salt() }));
    if (fresh.length === 0) return;
    await this.#store.addNames(fresh);
    this.#take(fresh);
  }

  veil(event: SessionEvent): SessionEvent {
    return mapNames(event, (name, id) => {
      const own = id === null ? undefined : this.#veilOfPerson.get(id);
      return own?.name === name ? own.veil : (this.#veilOfName.get(name) ?? name);
    });
  }

  async meet(bodies: readonly string[]): Promise<void> {
    const strange = bodies.some((body) => [...veilsIn(body)].some((veil) => !this.#openings.has(veil)));
    // Another server may have added a person.
    if (strange) this.#take(await this.#store.names());
  }

  open(body: string): string {
    return unveiled(body, (veil) => this.#openings.get(veil)?.name ?? erasedName(veil));
  }

  /** Returns name and salt of those pseudonyms that were not erased. */
  openings(veils: Iterable<string>): Record<string, Opening> {
    const known = [...veils].sort().flatMap((veil): [string, Opening][] => {
      const opening = this.#openings.get(veil);
      return opening ? [[veil, opening]] : [];
    });
    return Object.fromEntries(known);
  }

  #take(records: readonly NameRecord[]): void {
    for (const { personId, name, salt } of records) {
      const veil = veilOf({ name, salt }, sha256);
      this.#openings.set(veil, { name, salt });
      this.#veilOfPerson.set(personId, { name, veil });
      this.#veilOfName.set(name, veil);
    }
  }
}
