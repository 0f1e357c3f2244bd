import type { Post } from "../../shared/protocol/posts.ts";
import type { AircraftType } from "../../shared/types/schema.ts";

/** A person who may sign in. */
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

export interface SignInRecord {
  id: string;
  personId: string;
  deviceId: string;
  deviceName: string;
  /** SHA-256 of the token, lower-case hex. */
  tokenHash: string;
  createdAt: number;
  expiresAt: number;
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

export interface TypeSummary {
  id: string;
  version: number;
  name: string;
  /** `approved` or `notApproved`: whether the type names who approved it. */
  status: string;
}

/** People, sign-ins, aircraft and their types: what a session is planned from. Every method may reject when the
 * store does. */
export interface Directory {
  people(): Promise<PersonRecord[]>;
  person(id: string): Promise<PersonRecord | null>;
  personByHandle(handle: string): Promise<PersonRecord | null>;
  addPeople(people: readonly PersonRecord[]): Promise<void>;

  addSignIn(signIn: SignInRecord): Promise<void>;
  signInByToken(tokenHash: string): Promise<{ signIn: SignInRecord; person: PersonRecord } | null>;
  revokeSignIn(id: string, at: number): Promise<void>;
  /** Those of `ids` that are neither revoked, expired at `now`, nor of a person no longer active. */
  standing(ids: readonly string[], now: number): Promise<Set<string>>;

  lockout(key: string): Promise<Lockout | null>;
  putLockout(lockout: Lockout): Promise<void>;
  /** Forgets what was last touched before `before`. */
  forgetLockouts(before: number): Promise<void>;

  aircraft(): Promise<AircraftRecord[]>;
  addAircraft(aircraft: readonly AircraftRecord[], now: number): Promise<void>;
  types(): Promise<TypeSummary[]>;
  type(id: string, version: number): Promise<AircraftType | null>;
  addTypes(types: readonly AircraftType[], now: number): Promise<void>;
}
