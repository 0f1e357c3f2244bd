import { isDeepStrictEqual } from "node:util";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import type { AircraftType } from "../../shared/types/schema.ts";

/** Types by id and version. An entry is collected when no session holds the type any more. */
const held = new Map<string, WeakRef<AircraftType>>();

/**
 * Returns the equal type that another session holds already, to save memory: the type is the largest part of a
 * session, and never changes.
 */
export function sharedType(type: AircraftType): AircraftType {
  const key = `${type.id} ${type.version}`;
  const known = held.get(key)?.deref();
  // Compare in full: the record may come from another installation with a different type under the same number.
  if (known !== undefined && isDeepStrictEqual(known, type)) return known;
  held.set(key, new WeakRef(type));
  return type;
}

/** Returns the event, with the aircraft type of a plan shared. */
export function withSharedType(event: SessionEvent): SessionEvent {
  const { fact } = event;
  if (fact.type !== "planned") return event;
  return { ...event, fact: { ...fact, aircraftType: sharedType(fact.aircraftType) } };
}
