import { bareAircraft } from "../shared/house/aircraft.ts";
import type { Channels } from "../shared/house/channels.ts";
import { firstEntry } from "../shared/house/register.ts";
import type { Post } from "../shared/protocol/posts.ts";
import type { AircraftType } from "../shared/types/schema.ts";
import { hashPin, type PinCost } from "./auth/pin.ts";
import type { Directory } from "./store/directory.ts";

/** Invented people, aircraft types and aircraft. */
export interface DemoData {
  people: readonly { id: string; handle: string; name: string; pin: string; mayHold: Post[] }[];
  types: readonly AircraftType[];
  aircraft: readonly { id: string; name: string; typeId: string }[];
  /** The channels of the simulated logger, by aircraft. */
  channels: readonly Channels[];
}

/**
 * Fills a database that has no people, aircraft or types with the demo. Leaves any other unchanged. Returns true when
 * it filled it.
 */
export async function seedDemo(
  directory: Directory,
  demo: DemoData,
  now: number,
  cost: PinCost,
): Promise<boolean> {
  const held = [await directory.people(), await directory.register.all("aircraft"), await directory.types()];
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
        createdAt: now,
        demo: true,
      };
    }),
  );
  await directory.addTypes(demo.types, now);
  await directory.register.append(
    demo.aircraft.map((a) => firstEntry("aircraft", bareAircraft(a), "program", now)),
  );
  await directory.register.append(demo.channels.map((c) => firstEntry("channels", c, "program", now)));
  await directory.addPeople(people);
  return true;
}
