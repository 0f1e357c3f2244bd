import type { Post } from "../../shared/protocol/posts.ts";
import type { AircraftType } from "../../shared/types/schema.ts";
import type { DeviceStore } from "./devices.ts";
import type { PasskeyStore } from "./passkeys.ts";
import type { PersonalStore } from "./personal.ts";

/** A person who may sign in. */
export interface PersonRecord {
  id: string;
  name: string;
  handle: string;
  /** argon2id, encoded with its parameters. */
  pinHash: string;
  mayHold: Post[];
  active: boolean;
  /** Until when the person is current for duty, server milliseconds; null where no date is kept. */
  currentUntil: number | null;
  createdAt: number;
  demo: boolean;
}

export interface SignInRecord {
  id: string;
  personId: string;
  deviceId: string;
  deviceName: string;
  /** SHA-256 of the token, lower-case hex. */
  tokenHash: string;
  /** RFC 7638 thumbprint of the key that must prove itself with the token; null on a device that is not enrolled. */
  thumbprint: string | null;
  createdAt: number;
  expiresAt: number;
  usedAt: number;
  revokedAt: number | null;
}

export interface Lockout {
  key: string;
  failures: number;
  lockedUntil: number | null;
  updatedAt: number;
}

export interface AircraftRecord {
  id: string;
  name: string;
  typeId: string;
}

/** Somebody who had a hand in a version. */
export interface Named {
  id: string;
  name: string;
}

/** `superseded` is an approved version of which a newer one is approved too. */
export type TypeStatus = "draft" | "approved" | "superseded";

export interface TypeSummary {
  id: string;
  version: number;
  name: string;
  status: TypeStatus;
  /** Who answers for the figures, as the type says. */
  author: string;
  approvedBy: string | null;
  approvedAt: number | null;
  changedAt: number;
}

/** One version whole. */
export interface TypeVersion extends TypeSummary {
  type: AircraftType;
  /** Everybody who made or changed it in the app; empty for one that came with the house. */
  authors: Named[];
  /** Rises with every change. */
  revision: number;
}

/** A draft as it is written: `type` is its body. */
export interface TypeDraft {
  type: AircraftType;
  authors: readonly Named[];
}

/** People, sign-ins, aircraft and their types: what a session is planned from. Every method may reject when the
 * store does. */
export interface Directory {
  people(): Promise<PersonRecord[]>;
  person(id: string): Promise<PersonRecord | null>;
  personByHandle(handle: string): Promise<PersonRecord | null>;
  addPeople(people: readonly PersonRecord[]): Promise<void>;
  /** Whether the person may sign in. */
  setActive(person: string, active: boolean): Promise<void>;
  setPin(person: string, pinHash: string): Promise<void>;

  addSignIn(signIn: SignInRecord): Promise<void>;
  signInByToken(tokenHash: string): Promise<{ signIn: SignInRecord; person: PersonRecord } | null>;
  revokeSignIn(id: string, at: number): Promise<void>;
  /** Revokes every sign-in of a person or on a device; resolves to the ids of those that stood. */
  revokeSignIns(of: { personId: string } | { deviceId: string }, at: number): Promise<string[]>;
  usedSignIns(ids: readonly string[], at: number): Promise<void>;
  /** Those of `ids` that are neither revoked, expired at `now`, unused since `usedAfter`, nor of a person no longer
   * active. */
  standing(ids: readonly string[], now: number, usedAfter: number): Promise<Set<string>>;

  readonly devices: DeviceStore;
  readonly passkeys: PasskeyStore;
  readonly personal: PersonalStore;

  /** Takes what is good for one use; false when it was taken before, on whichever server. Kept until `until`. */
  takeOnce(key: string, until: number): Promise<boolean>;
  /** Forgets what was kept until before `now`. */
  forgetTaken(now: number): Promise<void>;

  lockout(key: string): Promise<Lockout | null>;
  putLockout(lockout: Lockout): Promise<void>;
  /** Does `work` while no other server does work that shares a key with it. */
  inTurn<T>(keys: readonly string[], work: () => Promise<T>): Promise<T>;
  /** Forgets what was last touched before `before`. */
  forgetLockouts(before: number): Promise<void>;

  aircraft(): Promise<AircraftRecord[]>;
  addAircraft(aircraft: readonly AircraftRecord[], now: number): Promise<void>;
  types(): Promise<TypeSummary[]>;
  type(id: string, version: number): Promise<TypeVersion | null>;
  /** Types that come with the house: approved where they name who approved them, drafts otherwise. */
  addTypes(types: readonly AircraftType[], now: number): Promise<void>;
  /** Adds a draft at revision 1; false when there is such a version already. */
  addDraft(draft: TypeDraft, now: number): Promise<boolean>;
  /** Replaces a draft that is still at `revision`; false when it is not, or is no draft any more. */
  changeDraft(draft: TypeDraft, revision: number, now: number): Promise<boolean>;
  /** Takes a draft that is still at `revision` out of sight for good; false when it is not. Its number stays taken. */
  discardDraft(id: string, version: number, revision: number, now: number): Promise<boolean>;
  /** Approves a draft that is still at `revision`, with the name in its body; false when it is not. */
  approveType(type: AircraftType, by: Named, revision: number, now: number): Promise<boolean>;
}
