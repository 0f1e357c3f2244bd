import type { AircraftRecord } from "../../shared/aircraft/record.ts";
import { canonical } from "../../shared/evidence/canonical.ts";
import type { SessionState } from "../../shared/session/state.ts";

/** The parts of a session that its contribution is made of. */
export const PARTS = [
  "stage",
  "holds",
  "cuts",
  "fires",
  "handling",
  "drills",
  "defects",
  "defectsClosed",
  "engines",
  "chocks",
  "brakes",
  "groundPower",
  "standing",
] as const satisfies readonly (keyof SessionState)[];

/** Returns true if a fact changed nothing in the record: it repeats after a restart, or another server was first. */
export function isRepeat(record: AircraftRecord, next: AircraftRecord): boolean {
  return said(record) === said(next);
}

function said({ items, endedElsewhere, engines, lastReported, open }: AircraftRecord): string {
  return canonical({ items, endedElsewhere, engines, lastReported, open: Object.keys(open) });
}
