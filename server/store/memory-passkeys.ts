import type { PasskeyRecord, PasskeyStore } from "./passkeys.ts";

/** Passkeys in memory. */
export class MemoryPasskeys implements PasskeyStore {
  readonly #all = new Map<string, PasskeyRecord>();

  async of(personId: string): Promise<PasskeyRecord[]> {
    return [...this.#all.values()]
      .filter((p) => p.personId === personId)
      .sort((a, b) => a.createdAt - b.createdAt);
  }

  async one(id: string): Promise<PasskeyRecord | null> {
    return this.#all.get(id) ?? null;
  }

  async add(passkey: PasskeyRecord): Promise<void> {
    if (this.#all.has(passkey.id)) throw new Error("there is such a passkey already");
    this.#all.set(passkey.id, passkey);
  }

  async used(id: string, counter: number, at: number): Promise<boolean> {
    const found = this.#all.get(id);
    if (!found || (counter > 0 && found.counter >= counter)) return false;
    this.#all.set(id, { ...found, counter, usedAt: at });
    return true;
  }

  async remove(id: string, personId: string): Promise<boolean> {
    return this.#all.get(id)?.personId === personId && this.#all.delete(id);
  }
}
