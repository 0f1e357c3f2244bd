import { canonical } from "../../shared/evidence/canonical.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import type {
  Directory,
  Lockout,
  Named,
  PeopleTaken,
  PersonRecord,
  TypeDraft,
  TypeSummary,
  TypeVersion,
} from "./directory.ts";
import { MemoryCurrencies } from "./memory-currencies.ts";
import { MemoryDevices } from "./memory-devices.ts";
import { MemoryPasskeys } from "./memory-passkeys.ts";
import { MemoryPictures } from "./memory-pictures.ts";
import { MemoryRegister } from "./memory-register.ts";
import type { NameRecord, PersonalStore } from "./personal.ts";
import type { SignInRecord } from "./sign-in.ts";
import type { Seal, StoredType } from "./stored-type.ts";
import { statusesOf } from "./type-status.ts";

const keyOf = ({ id, version }: { id: string; version: number }) => `${id} ${version}`;

/** The directory in memory, to use with `MemoryEventStore`. */
export class MemoryDirectory implements Directory {
  readonly #people = new Map<string, PersonRecord>();
  readonly #signIns = new Map<string, SignInRecord>();
  readonly #lockouts = new Map<string, Lockout>();
  readonly #taken = new Map<string, number>();
  #types: TypeVersion[] = [];
  readonly #seals = new Map<string, Seal>();
  readonly #approvers = new Map<string, string>();
  readonly #made = new Map<string, number>();
  readonly #discarded = new Set<string>();
  #names: NameRecord[] = [];
  readonly devices = new MemoryDevices();
  readonly passkeys = new MemoryPasskeys();
  readonly register = new MemoryRegister();
  readonly currencies = new MemoryCurrencies();
  readonly pictures = new MemoryPictures();
  readonly personal: PersonalStore = {
    names: async () => [...this.#names],
    addNames: async (names) => void this.#names.push(...names),
    signIns: async (id) => [...this.#signIns.values()].filter((s) => s.personId === id),
    forgetSignIns: async (ids) => {
      for (const id of ids) this.#signIns.delete(id);
    },
    erase: async (id, lockouts) => {
      this.#names = this.#names.filter((n) => n.personId !== id);
      for (const s of await this.personal.signIns(id)) this.#signIns.delete(s.id);
      for (const p of await this.passkeys.of(id)) await this.passkeys.remove(p.id, id);
      this.currencies.erase(id);
      for (const key of lockouts) this.#lockouts.delete(key);
      this.#people.delete(id);
    },
  };

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

  async setActive(id: string, active: boolean): Promise<void> {
    const person = this.#people.get(id);
    if (person) this.#people.set(id, { ...person, active });
  }

  async setPerson(id: string, to: Pick<PersonRecord, "name" | "mayHold">): Promise<void> {
    const person = this.#people.get(id);
    const { name, mayHold } = to;
    if (person) this.#people.set(id, { ...person, name, mayHold });
  }

  async takePeople({ added, changed, dates }: PeopleTaken): Promise<void> {
    await this.addPeople(added);
    for (const { id, name, mayHold } of changed) {
      const person = this.#people.get(id);
      if (person) this.#people.set(id, { ...person, name, mayHold });
    }
    for (const { personId, dates: days } of dates) await this.currencies.setDates(personId, days);
  }

  async setPin(id: string, pinHash: string): Promise<void> {
    const person = this.#people.get(id);
    if (person) this.#people.set(id, { ...person, pinHash });
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

  async revokeSignIns(of: { personId: string } | { deviceId: string }, at: number): Promise<string[]> {
    const standing = [...this.#signIns.values()].filter(
      (s) =>
        s.revokedAt === null && ("personId" in of ? s.personId === of.personId : s.deviceId === of.deviceId),
    );
    for (const signIn of standing) this.#signIns.set(signIn.id, { ...signIn, revokedAt: at });
    return standing.map((s) => s.id);
  }

  async usedSignIns(ids: readonly string[], at: number): Promise<void> {
    for (const id of ids) {
      const signIn = this.#signIns.get(id);
      if (signIn) this.#signIns.set(id, { ...signIn, usedAt: at });
    }
  }

  async standing(ids: readonly string[], now: number, usedAfter: number): Promise<Set<string>> {
    return new Set(
      ids.filter((id) => {
        const signIn = this.#signIns.get(id);
        const person = signIn && this.#people.get(signIn.personId);
        if (person?.active !== true || signIn?.revokedAt !== null) return false;
        return signIn.expiresAt > now && signIn.usedAt > usedAfter;
      }),
    );
  }

  async peopleOn(device: string, now: number, usedAfter: number): Promise<Set<string>> {
    const there = [...this.#signIns.values()].filter((s) => s.deviceId === device);
    const standing = await this.standing(
      there.map((s) => s.id),
      now,
      usedAfter,
    );
    return new Set(there.flatMap((s) => (standing.has(s.id) ? [s.personId] : [])));
  }

  async takeOnce(key: string, until: number): Promise<boolean> {
    if (this.#taken.has(key)) return false;
    this.#taken.set(key, until);
    return true;
  }

  async forgetTaken(now: number): Promise<void> {
    for (const [key, until] of this.#taken) if (until < now) this.#taken.delete(key);
  }

  async lockout(key: string): Promise<Lockout | null> {
    return this.#lockouts.get(key) ?? null;
  }

  async putLockout(lockout: Lockout): Promise<void> {
    this.#lockouts.set(lockout.key, lockout);
  }

  inTurn<T>(_keys: readonly string[], work: () => Promise<T>): Promise<T> {
    return work();
  }

  async forgetLockouts(before: number): Promise<void> {
    for (const { key, updatedAt } of this.#lockouts.values())
      if (updatedAt < before) this.#lockouts.delete(key);
  }

  async types(): Promise<TypeSummary[]> {
    const statuses = statusesOf(this.#types);
    return this.#types
      .map(({ type: _type, authors: _authors, revision: _revision, ...summary }, i) => ({
        ...summary,
        status: statuses[i] ?? summary.status,
      }))
      .sort((a, b) => (a.id === b.id ? a.version - b.version : a.id < b.id ? -1 : 1));
  }

  async type(id: string, version: number): Promise<TypeVersion | null> {
    const at = this.#at(id, version);
    const found = this.#types[at];
    return found ? { ...found, status: statusesOf(this.#types)[at] ?? found.status } : null;
  }

  async addTypes(types: readonly AircraftType[], now: number): Promise<void> {
    for (const type of types) {
      if (!(await this.addDraft({ type, authors: [] }, now)))
        throw new Error(`version ${type.version} of ${type.id} is there already`);
      if (type.approvedBy !== null)
        this.#put(type, { status: "approved", approvedBy: type.approvedBy, approvedAt: now });
    }
  }

  async addDraft({ type, authors }: TypeDraft, now: number): Promise<boolean> {
    const { id, version, name, author } = type;
    if (this.#at(id, version) !== -1 || this.#discarded.has(`${id} ${version}`)) return false;
    this.#made.set(keyOf(type), now);
    this.#types.push({
      ...{ id, version, name, author, type, authors: [...authors] },
      status: "draft",
      approvedBy: null,
      approvedAt: null,
      changedAt: now,
      revision: 1,
    });
    return true;
  }

  async changeDraft({ type, authors }: TypeDraft, revision: number, now: number): Promise<boolean> {
    if (!this.#isDraft(type, revision)) return false;
    this.#put(type, { authors: [...authors], changedAt: now, revision: revision + 1 });
    return true;
  }

  async discardDraft(id: string, version: number, revision: number): Promise<boolean> {
    const found = this.#types[this.#at(id, version)];
    if (!found || !this.#isDraft(found.type, revision)) return false;
    this.#types = this.#types.filter((t) => t !== found);
    this.#discarded.add(`${id} ${version}`);
    return true;
  }

  async approveType(
    type: AircraftType,
    by: Named,
    revision: number,
    now: number,
    seal: Seal,
  ): Promise<boolean> {
    if (!this.#isDraft(type, revision)) return false;
    this.#put(type, {
      ...{ status: "approved", approvedBy: by.name, approvedAt: now },
      ...{ changedAt: now, revision: revision + 1 },
    });
    this.#approvers.set(keyOf(type), by.id);
    this.#seals.set(keyOf(type), seal);
    return true;
  }

  async storedTypes(): Promise<StoredType[]> {
    return this.#types.map(({ type, authors, ...row }) => ({
      ...row,
      body: canonical(type),
      authors: JSON.stringify(authors),
      approvedById: this.#approvers.get(keyOf(row)) ?? null,
      createdAt: this.#made.get(keyOf(row)) ?? 0,
      seal: this.#seals.get(keyOf(row)) ?? null,
    }));
  }

  async sealType(id: string, version: number, seal: Seal): Promise<void> {
    const found = this.#types[this.#at(id, version)];
    const key = keyOf({ id, version });
    if (found?.status === "approved" && !this.#seals.has(key)) this.#seals.set(key, seal);
  }

  /** Memory needs no guards: nothing but this class reaches it. */
  async missingTypeGuards(): Promise<string[]> {
    return [];
  }

  #at(id: string, version: number): number {
    return this.#types.findIndex((t) => t.id === id && t.version === version);
  }

  #isDraft({ id, version }: AircraftType, revision: number): boolean {
    const found = this.#types[this.#at(id, version)];
    return found?.status === "draft" && found.revision === revision;
  }

  #put(type: AircraftType, change: Partial<TypeVersion>): void {
    const { id, version, name, author } = type;
    this.#types = this.#types.map((t) =>
      t.id === id && t.version === version ? { ...t, name, author, type, ...change } : t,
    );
  }
}
