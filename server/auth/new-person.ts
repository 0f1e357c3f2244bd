import { z } from "zod";
import { postSchema } from "../../shared/protocol/enums.ts";
import { POSTS, type Post } from "../../shared/protocol/posts.ts";
import { idSchema, line } from "../../shared/protocol/text.ts";
import type { Clock } from "../clock.ts";
import type { Directory, PersonRecord } from "../store/directory.ts";
import { newPinSchema } from "./new-pin.ts";
import { hashPin, type PinCost } from "./pin.ts";
import { OfficeRefused } from "./refused.ts";
import { skeleton } from "./skeleton.ts";

export const nameSchema = line(80);
export const handleSchema = z.string().trim().toLowerCase().pipe(idSchema);
export const mayHoldSchema = z
  .array(postSchema)
  .max(POSTS.length)
  .refine((posts) => new Set(posts).size === posts.length, "must name each post once");

/** Returns the schema of a person who is added, with a PIN of `least` characters or more. */
export const newPersonSchema = (least: number) =>
  z.strictObject({
    handle: handleSchema,
    name: nameSchema,
    mayHold: mayHoldSchema,
    pin: newPinSchema(least),
  });

export interface NewPerson {
  handle: string;
  name: string;
  mayHold: Post[];
  pin: string;
}

export interface NewPeopleDeps {
  directory: Directory;
  clock: Clock;
  ids: { person(): string };
  pinCost: PinCost;
}

/**
 * Adds a person who may sign in.
 * @throws OfficeRefused when the handle is taken or somebody bears a name that looks the same
 */
export async function addPerson(
  { directory, clock, ids, pinCost }: NewPeopleDeps,
  { pin, ...entered }: NewPerson,
): Promise<PersonRecord> {
  if (await directory.personByHandle(entered.handle))
    throw new OfficeRefused("taken", `The handle ${entered.handle} is taken: choose another`);
  await nobodyAlike(directory, entered.name, null);
  const person: PersonRecord = {
    ...entered,
    id: ids.person(),
    pinHash: await hashPin(pin, pinCost),
    ...{ active: true, createdAt: clock.now(), demo: false },
  };
  await directory.addPeople([person]);
  return person;
}

/**
 * @param own id of the person whose name it is to be; null for a new one
 * @throws OfficeRefused when somebody else who may sign in bears the name, or one that looks the same
 */
export async function nobodyAlike(directory: Directory, name: string, own: string | null): Promise<void> {
  const all = await directory.people();
  const alike = all.find((p) => p.active && p.id !== own && skeleton(p.name) === skeleton(name));
  if (alike) {
    const message = `${alike.handle} is called ${alike.name}, which looks like ${name}: add what tells them apart`;
    throw new OfficeRefused("taken", message);
  }
}
