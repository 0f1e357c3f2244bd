import type { AircraftType } from "../../shared/types/schema.ts";
import type {
  AircraftRecord,
  Directory,
  Lockout,
  PersonRecord,
  SignInRecord,
  TypeSummary,
} from "./directory.ts";
import { typeStatus } from "./type-status.ts";

/** The directory in this process's memory, beside `MemoryEventStore`. */
export class MemoryDirectory implements Directory {
  readonly #people = new Map<string, PersonRecord>();
  readonly #signIns = new Map<string, SignInRecord>();
  readonly #lockouts = new Map<string, Lockout>();
  readonly #aircraft = new Map<string, AircraftRecord>();
  readonly #types: AircraftType[] = [];

  async people(): Promise<PersonRecord[]> {
    return [...this.#people.values()].sort((a, b) => (a.name < b.name ? -1 : 1));
  }

  async person(id: string): Promise<PersonRecord | null> {
    return this.#people.get(id) ?? null;
  }

  async personByHandle(handle: string): Promise<PersonRecord | null> {
    return [...this.#people.values()].find((p) => p.handle === handle) ?? null;
  }

  async addPeople(people: readonly PersonRecord[]): Promise<void> {
    for (const person of people) {
      if (this.#people.has(person.id) || (await this.personByHandle(person.handle)))
        throw new Error(`person ${person.handle} is there already`);
      this.#people.set(person.id, person);
    }
  }

  async addSignIn(signIn: SignInRecord): Promise<void> {
    this.#signIns.set(signIn.id, signIn);
  }

  async signInByToken(tokenHash: string) {
    const signIn = [...this.#signIns.values()].find((s) => s.tokenHash === tokenHash);
    const person = signIn && this.#people.get(signIn.personId);
    return person ? { signIn, person } : null;
  }

  async revokeSignIn(id: string, at: number): Promise<void> {
    const signIn = this.#signIns.get(id);
    if (signIn && signIn.revokedAt === null) this.#signIns.set(id, { ...signIn, revokedAt: at });
  }

  async standing(ids: readonly string[], now: number): Promise<Set<string>> {
    return new Set(
      ids.filter((id) => {
        const signIn = this.#signIns.get(id);
        const person = signIn && this.#people.get(signIn.personId);
        return person?.active === true && signIn?.revokedAt === null && signIn.expiresAt > now;
      }),
    );
  }

  async lockout(key: string): Promise<Lockout | null> {
    return this.#lockouts.get(key) ?? null;
  }

  async putLockout(lockout: Lockout): Promise<void> {
    this.#lockouts.set(lockout.key, lockout);
  }

  async forgetLockouts(before: number): Promise<void> {
    for (const { key, updatedAt } of this.#lockouts.values())
      if (updatedAt < before) this.#lockouts.delete(key);
  }

  async aircraft(): Promise<AircraftRecord[]> {
    return [...this.#aircraft.values()].sort((a, b) => (a.id < b.id ? -1 : 1));
  }

  async addAircraft(aircraft: readonly AircraftRecord[]): Promise<void> {
    for (const one of aircraft) this.#aircraft.set(one.id, one);
  }

  async types(): Promise<TypeSummary[]> {
    return this.#types
      .map((t) => ({ id: t.id, version: t.version, name: t.name, status: typeStatus(t) }))
      .sort((a, b) => (a.id === b.id ? a.version - b.version : a.id < b.id ? -1 : 1));
  }

  async type(id: string, version: number): Promise<AircraftType | null> {
    return this.#types.find((t) => t.id === id && t.version === version) ?? null;
  }

  async addTypes(types: readonly AircraftType[]): Promise<void> {
    this.#types.push(...types);
  }
}
