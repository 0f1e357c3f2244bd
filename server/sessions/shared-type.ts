import { isDeepStrictEqual } from "node:util";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import type { AircraftType } from "../../shared/types/schema.ts";

/** By id and version; forgotten when no session holds it any more. */
const held = new Map<string, WeakRef<AircraftType>>();

/** The same type as another session holds it already: it is most of what a session takes in memory, and never changes. */
export function sharedType(type: AircraftType): AircraftType {
  const key = `${type.id} ${type.version}`;
  const known = held.get(key)?.deref();
  // A version never changes once approved, but a record may come from a house that had another under its number.
  if (known !== undefined && isDeepStrictEqual(known, type)) return known;
  held.set(key, new WeakRef(type));
  return type;
}

/** The event as it was, with the type it plans shared. */
export function withSharedType(event: SessionEvent): SessionEvent {
  const { fact } = event;
  if (fact.type !== "planned") return event;
  return { ...event, fact: { ...fact, aircraftType: sharedType(fact.aircraftType) } };
}
