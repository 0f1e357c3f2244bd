import type { RegisterEntry, RegisterKind } from "../../shared/house/register.ts";
import type { EntryMade, RegisterStore } from "./register.ts";

export class MemoryRegister implements RegisterStore {
  #entries: RegisterEntry[] = [];

  async all<K extends RegisterKind>(kind: K): Promise<RegisterEntry<K>[]> {
    const newest = new Map<string, RegisterEntry<K>>();
    for (const entry of this.#of(kind)) newest.set(entry.id, entry);
    return [...newest.values()].sort((a, b) => (a.id < b.id ? -1 : 1));
  }

  async one<K extends RegisterKind>(kind: K, id: string): Promise<RegisterEntry<K> | null> {
    return (await this.history(kind, id, 1))[0] ?? null;
  }

  async history<K extends RegisterKind>(kind: K, id: string, most: number): Promise<RegisterEntry<K>[]> {
    return this.#of(kind)
      .filter((e) => e.id === id)
      .reverse()
      .slice(0, most);
  }

  async madeBy(person: string): Promise<EntryMade[]> {
    return this.#entries
      .filter((e) => e.by === person)
      .sort((a, b) => a.at - b.at)
      .map(({ kind, id, revision, at }) => ({ kind, id, revision, at }));
  }

  async append(entries: readonly RegisterEntry[]): Promise<boolean> {
    const key = ({ kind, id, revision }: RegisterEntry) => JSON.stringify([kind, id, revision]);
    const there = new Set(this.#entries.map(key));
    if (entries.some((e) => there.has(key(e)))) return false;
    this.#entries = [...this.#entries, ...entries].sort((a, b) => a.revision - b.revision);
    return true;
  }

  #of<K extends RegisterKind>(kind: K): RegisterEntry<K>[] {
    return this.#entries.filter((e): e is RegisterEntry<K> => e.kind === kind);
  }
}
