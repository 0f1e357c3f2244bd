import type { Post } from "../../shared/protocol/posts.ts";
import type { Directory, PersonRecord } from "../store/directory.ts";
import type { Identity } from "./identity.ts";
import { nobodyAlike } from "./new-person.ts";
import { OfficeRefused, qualified } from "./refused.ts";
import type { SignIns } from "./sign-ins.ts";

/** Returns every person, by name, active or not. */
export async function everybody(directory: Directory, by: Identity["person"]): Promise<PersonRecord[]> {
  qualified(by);
  return directory.people();
}

/** Allows or forbids a person to sign in, and ends their sign-ins when forbidden. Nobody can do it to themselves. */
export async function setActive(
  { directory, signIns }: { directory: Directory; signIns: SignIns },
  by: Identity["person"],
  id: string,
  active: boolean,
): Promise<void> {
  qualified(by);
  if (id === by.id) throw new OfficeRefused("ownWork", "Another person must do this to you");
  if (!(await directory.person(id))) throw new OfficeRefused("notFound", "There is no such person");
  await directory.setActive(id, active);
  if (!active) await signIns.endAll({ personId: id });
}

/** The part of a person that an administrator may change. */
export interface PersonChange {
  name: string;
  mayHold: Post[];
}

/** Returns true when the person would lose a post they are qualified to hold. */
export async function losesPosts(
  directory: Directory,
  id: string,
  mayHold: readonly Post[],
): Promise<boolean> {
  const person = await directory.person(id);
  return person !== null && loses(person, mayHold);
}

const loses = (person: PersonRecord, mayHold: readonly Post[]): boolean =>
  person.mayHold.some((post) => !mayHold.includes(post));

/**
 * Changes a person's name and posts, at once or not at all. One who loses a post has to sign in again:
 * a panel that is open may not go on with what they may no longer do. Nobody changes their own posts.
 */
export async function changePerson(
  { directory, signIns }: { directory: Directory; signIns: SignIns },
  by: Identity["person"],
  id: string,
  to: PersonChange,
): Promise<void> {
  qualified(by);
  const person = await directory.person(id);
  if (!person) throw new OfficeRefused("notFound", "There is no such person");
  const posts = [...person.mayHold].sort().join() !== [...to.mayHold].sort().join();
  if (id === by.id && posts) throw new OfficeRefused("ownWork", "Another person must do this to you");
  await nobodyAlike(directory, to.name, id);
  await directory.setPerson(id, to);
  if (loses(person, to.mayHold)) await signIns.endAll({ personId: id });
}

/** Replaces a forgotten PIN from the server's console, and ends the person's sign-ins. */
export async function resetPin(
  directory: Directory,
  personId: string,
  pinHash: string,
  now: number,
): Promise<void> {
  await directory.setPin(personId, pinHash);
  await directory.revokeSignIns({ personId }, now);
}
