import type { Directory, PersonRecord } from "../store/directory.ts";
import type { Identity } from "./identity.ts";
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
