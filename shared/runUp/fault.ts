import type { RunUpCheck } from "./checkItems.ts";

/** All that can be wrong with a run-up's check or gauge. */
export const RUN_UP_FAULTS = [
  "belowMin",
  "over",
  "notRead",
  "unreadable",
  "notDone",
  "leftOverMax",
  "rightOverMax",
  "uneven",
  "leftNoDrop",
  "rightNoDrop",
  "noResponse",
  "overMax",
  "notRecovered",
  "spread",
] as const;
export type RunUpFaultKind = (typeof RUN_UP_FAULTS)[number];

/** One fault of the run-up: of which engine, or of the aircraft (null), and of which check or gauge. */
export interface RunUpFault {
  engine: number | null;
  of: { check: RunUpCheck } | { gauge: string };
  what: RunUpFaultKind;
}
