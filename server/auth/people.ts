import type { Directory, PersonRecord } from "../store/directory.ts";
import type { Identity } from "./identity.ts";
import { OfficeRefused, qualified } from "./refused.ts";
import type { SignIns } from "./sign-ins.ts";

/** Everybody there is, by name, whether or not they may sign in. */
export async function everybody(directory: Directory, by: Identity["person"]): Promise<PersonRecord[]> {
  qualified(by);
  return directory.people();
}

/** Lets a person sign in or not; one who may not is cut off at once. Nobody does it to themselves. */
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

/** Gives who forgot theirs another PIN, at the server's console. Whoever was in by the old one is out. */
export async function resetPin(
  directory: Directory,
  personId: string,
  pinHash: string,
  now: number,
): Promise<void> {
  await directory.setPin(personId, pinHash);
  await directory.revokeSignIns({ personId }, now);
}
