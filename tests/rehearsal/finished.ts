import { personAt } from "../../seed/crew/stage.ts";
import type { EventStore } from "../../server/store/events.ts";
import type { SessionEvent } from "../../shared/protocol/events.ts";
import { REHEARSAL_ID } from "../../shared/protocol/rehearsal.ts";
import { storeStory } from "../store/chained.ts";
import { script, Theatre, TYPES } from "./theatre.ts";

/** The id of the rehearsal that is stored. */
export const FINISHED = `${REHEARSAL_ID}test`;

/** Returns a whole rehearsal of the type with the fewest engines, in which every engine started. */
export function played(): Theatre {
  const theatre = new Theatre(
    TYPES.reduce((a, b) => (a.engines.length <= b.engines.length ? a : b)),
    script({}),
    5,
  );
  theatre.play(90, undefined, 1_000);
  return theatre;
}

/** Returns its events with this person as the fire guard, and moved so that its last engine starts at `at`. */
export function guardedBy({ events }: Theatre, person: string, at: number): SessionEvent[] {
  const last = events.findLast(({ fact }) => fact.type === "sent" && fact.kind === "started");
  const guard = personAt("fireGuard").id;
  return events.map((e) => ({
    ...e,
    at: e.at - (last?.at ?? 0) + at,
    actor: e.actor.kind === "person" && e.actor.id === guard ? { ...e.actor, id: person } : e.actor,
  }));
}

/** Puts such a rehearsal into a store. Returns its events. */
export async function storeFinished(store: EventStore, person: string, at: number): Promise<SessionEvent[]> {
  const theatre = played();
  const log = guardedBy(theatre, person, at);
  await storeStory(store, { state: theatre.state, log }, "R-TESTAA");
  return log;
}
