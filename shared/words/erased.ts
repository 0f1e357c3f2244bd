import { mapNames } from "../evidence/pseudonyms.ts";
import type { SessionEvent } from "../protocol/events.ts";
import type { Say } from "./say.ts";

/** Events with the people who were erased named in the reader's language; what is signed and hashed is never this. */
export function namedFor(events: readonly SessionEvent[], say: Say): readonly SessionEvent[] {
  if (say.language === "en") return events;
  return events.map((event) => mapNames(event, say.person));
}
