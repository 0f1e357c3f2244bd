import type { Post } from "../shared/protocol/posts.ts";
import type { AircraftType } from "../shared/types/schema.ts";
import { hashPin, type PinCost } from "./auth/pin.ts";
import type { Directory } from "./store/directory.ts";

/** Invented people, types and aircraft to try Chockside with. */
export interface DemoData {
  people: readonly { id: string; handle: string; name: string; pin: string; mayHold: Post[] }[];
  types: readonly AircraftType[];
  aircraft: readonly { id: string; name: string; typeId: string }[];
}

/** Puts the demo into a database that holds nobody and no aircraft; leaves any other as it is. Resolves to whether it
 * did. */
export async function seedDemo(
  directory: Directory,
  demo: DemoData,
  now: number,
  cost: PinCost,
): Promise<boolean> {
  const held = [await directory.people(), await directory.aircraft(), await directory.types()];
  if (held.some((rows) => rows.length > 0)) return false;
  const people = await Promise.all(
    demo.people.map(async ({ id, handle, name, pin, mayHold }) => {
      const pinHash = await hashPin(pin, cost);
      return {
        id,
        handle,
        name,
        mayHold,
        pinHash,
        active: true,
        currentUntil: null,
        createdAt: now,
        demo: true,
      };
    }),
  );
  await directory.addTypes(demo.types, now);
  await directory.addAircraft(demo.aircraft, now);
  await directory.addPeople(people);
  return true;
}
