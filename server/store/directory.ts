import type { Post } from "../../shared/protocol/posts.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import type { CurrencyStore } from "./currencies.ts";
import type { DeviceStore } from "./devices.ts";
import type { PasskeyStore } from "./passkeys.ts";
import type { PersonalStore } from "./personal.ts";
import type { PictureStore } from "./pictures.ts";
import type { RegisterStore } from "./register.ts";
import type { SignInRecord } from "./sign-in.ts";
import type { Seal, StoredType } from "./stored-type.ts";

/** A person, active or not. */
export interface PersonRecord {
  id: string;
  name: string;
  handle: string;
  /** argon2id, encoded with its parameters. */
  pinHash: string;
  mayHold: Post[];
  active: boolean;
  createdAt: number;
  demo: boolean;
}

export interface Lockout {
  key: string;
  failures: number;
  lockedUntil: number | null;
  updatedAt: number;
}

/** A person who worked on a version. */
export interface Named {
  id: string;
  name: string;
}

/** `superseded`: approved, and a newer version is approved too. */
export type TypeStatus = "draft" | "approved" | "superseded";

export interface TypeSummary {
  id: string;
  version: number;
  name: string;
  status: TypeStatus;
  /** The person responsible for the figures, as the type states. */
  author: string;
  approvedBy: string | null;
  approvedAt: number | null;
  changedAt: number;
}

/** One version with all its data. */
export interface TypeVersion extends TypeSummary {
  type: AircraftType;
  /** Everybody who made or changed it in the app; empty for a type that was supplied with the program. */
  authors: Named[];
  /** Rises with every change. */
  revision: number;
}

/** A draft to write. `type` is its body. */
export interface TypeDraft {
  type: AircraftType;
  authors: readonly Named[];
}

/** A list of people that was taken in. */
export interface PeopleTaken {
  added: readonly PersonRecord[];
  changed: readonly Pick<PersonRecord, "id" | "name" | "mayHold">[];
  /** All end dates of these people, in place of those they had. */
  dates: readonly { personId: string; dates: Readonly<Record<string, string>> }[];
}

/** People, sign-ins, aircraft types and the house's register. Every method rejects when the database fails. */
export interface Directory {
  people(): Promise<PersonRecord[]>;
  person(id: string): Promise<PersonRecord | null>;
  personByHandle(handle: string): Promise<PersonRecord | null>;
  addPeople(people: readonly PersonRecord[]): Promise<void>;
  /** Sets whether the person may sign in. */
  setActive(person: string, active: boolean): Promise<void>;
  /** Sets name and posts. */
  setPerson(person: string, to: Pick<PersonRecord, "name" | "mayHold">): Promise<void>;
  /** Adds and changes people and their dates: all of it or nothing. */
  takePeople(taken: PeopleTaken): Promise<void>;
  setPin(person: string, pinHash: string): Promise<void>;

  addSignIn(signIn: SignInRecord): Promise<void>;
  signInByToken(tokenHash: string): Promise<{ signIn: SignInRecord; person: PersonRecord } | null>;
  revokeSignIn(id: string, at: number): Promise<void>;
  /** Revokes every sign-in of a person or on a device. Resolves to the ids of those that were valid. */
  revokeSignIns(of: { personId: string } | { deviceId: string }, at: number): Promise<string[]>;
  usedSignIns(ids: readonly string[], at: number): Promise<void>;
  /**
   * Returns those of `ids` that are not revoked, not expired at `now`, used after `usedAfter`, and of an active
   * person.
   */
  standing(ids: readonly string[], now: number, usedAfter: number): Promise<Set<string>>;

  /** Returns the ids of the people whose sign-ins on a device stand in the same sense. */
  peopleOn(device: string, now: number, usedAfter: number): Promise<Set<string>>;

  readonly devices: DeviceStore;
  readonly passkeys: PasskeyStore;
  readonly personal: PersonalStore;
  readonly register: RegisterStore;
  readonly currencies: CurrencyStore;
  readonly pictures: PictureStore;

  /** Marks a single-use value as used until `until`. Returns false when any server marked it before. */
  takeOnce(key: string, until: number): Promise<boolean>;
  /** Deletes values kept until before `now`. */
  forgetTaken(now: number): Promise<void>;

  lockout(key: string): Promise<Lockout | null>;
  putLockout(lockout: Lockout): Promise<void>;
  /** Runs `work` while no other server runs work with a common key. */
  inTurn<T>(keys: readonly string[], work: () => Promise<T>): Promise<T>;
  /** Deletes lockouts last changed before `before`. */
  forgetLockouts(before: number): Promise<void>;

  types(): Promise<TypeSummary[]>;
  type(id: string, version: number): Promise<TypeVersion | null>;
  /** Adds types supplied with the program: approved when they name an approver, else drafts. */
  addTypes(types: readonly AircraftType[], now: number): Promise<void>;
  /** Adds a draft at revision 1. Returns false when the version exists. */
  addDraft(draft: TypeDraft, now: number): Promise<boolean>;
  /** Replaces a draft that is still at `revision`. Returns false when it is not, or is no longer a draft. */
  changeDraft(draft: TypeDraft, revision: number, now: number): Promise<boolean>;
  /** Hides a draft that is still at `revision` for good. Returns false when it is not. Its number stays taken. */
  discardDraft(id: string, version: number, revision: number, now: number): Promise<boolean>;
  /**
   * Approves a draft that is still at `revision`, with the approver's name in its body and the seal of its row as it
   * then is. Returns false when it is not.
   */
  approveType(type: AircraftType, by: Named, revision: number, now: number, seal: Seal): Promise<boolean>;
  /** Every version as it is stored, unread; discarded drafts are left out. */
  storedTypes(): Promise<StoredType[]>;
  /** Gives an approved version that has no seal its seal. Does nothing to any other. */
  sealType(id: string, version: number, seal: Seal): Promise<void>;
  /** Names of the database's guards of approved versions that are missing or not as they were made. */
  missingTypeGuards(): Promise<string[]>;
}
