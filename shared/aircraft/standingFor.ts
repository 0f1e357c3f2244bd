import type { Standing } from "../protocol/standing.ts";
import type { AircraftRecord } from "./record.ts";

/** Returns the part of the record that session `id` is told: everything that is not its own. */
export function standingFor(record: AircraftRecord, id: string): Standing {
  return {
    record: record.seq,
    items: record.items.filter((i) => i.session !== id),
    ended: record.endedElsewhere.filter((e) => e.session === id).map((e) => e.item),
    engines: record.engines,
    lastReported: record.lastReported,
  };
}
