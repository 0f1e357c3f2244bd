import type { Opening } from "../../shared/evidence/names.ts";
import type { SignInRecord } from "./directory.ts";

/** A name a person has or had, with what hides it in sealed bytes. */
export interface NameRecord extends Opening {
  personId: string;
}

/** What is kept of people beside the directory, so that it can be given to them and taken away. */
export interface PersonalStore {
  names(): Promise<NameRecord[]>;
  addNames(names: readonly NameRecord[]): Promise<void>;
  signIns(personId: string): Promise<SignInRecord[]>;
  forgetSignIns(ids: readonly string[]): Promise<void>;
  /** Removes the person, their names with the salts, their sign-ins, their passkeys and these counts of failed attempts. */
  erase(personId: string, lockouts: readonly string[]): Promise<void>;
}
