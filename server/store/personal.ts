import type { Opening } from "../../shared/evidence/pseudonyms.ts";
import type { SignInRecord } from "./sign-in.ts";

/** A present or former name of a person, with the salt of its pseudonym. */
export interface NameRecord extends Opening {
  personId: string;
}

/** Personal data that can be exported and erased. */
export interface PersonalStore {
  names(): Promise<NameRecord[]>;
  addNames(names: readonly NameRecord[]): Promise<void>;
  signIns(personId: string): Promise<SignInRecord[]>;
  forgetSignIns(ids: readonly string[]): Promise<void>;
  /** Removes the person, their names with the salts, their currencies, their sign-ins, their passkeys and the given lockouts. */
  erase(personId: string, lockouts: readonly string[]): Promise<void>;
}
