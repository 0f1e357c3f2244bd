import { mapNames } from "../evidence/pseudonyms.ts";
import type { SessionEvent } from "../protocol/events.ts";
import type { Say } from "./say.ts";

/**
 * Returns the events with erased people named in the reader's language. Signed and hashed bytes never contain these
 * names.
 */
export function namedFor(events: readonly SessionEvent[], say: Say): readonly SessionEvent[] {
  if (say.language === "en") return events;
  return events.map((event) => mapNames(event, say.person));
}
