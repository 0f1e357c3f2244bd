import type { Standing, StandingItem } from "../protocol/standing.ts";
import type { AircraftRecord } from "./record.ts";

/** Returns the part of the record that session `id` is told: everything that is not its own. */
export function standingFor(record: AircraftRecord, id: string): Standing {
  const located = record.items.flatMap(({ session, item }) =>
    session === id && item.is === "fire" && item.said ? [{ ref: item.ref, said: item.said }] : [],
  );
  return {
    record: record.seq,
    items: record.items.filter((i) => i.session !== id).map((i) => withoutOwnStart(i, id)),
    ended: record.endedElsewhere.filter((e) => e.session === id).map((e) => e.item),
    ...(located.length === 0 ? {} : { located }),
    engines: record.engines,
    lastReported: record.lastReported,
  };
}

/** A session's own start ends no deferral in that session, so that no defect bars an engine that is being cranked. */
function withoutOwnStart(standing: StandingItem, id: string): StandingItem {
  const { item } = standing;
  if (item.is !== "defect" || item.startedSince === undefined) return standing;
  const startedSince = item.startedSince.filter((session) => session !== id);
  return { ...standing, item: { ...item, startedSince } };
}
