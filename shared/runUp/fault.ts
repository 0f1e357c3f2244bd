import type { RunUpCheck } from "./checkItems.ts";

/** All faults that a run-up's check or gauge can have. */
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

/** One fault of the run-up: its engine (null: the aircraft), and its check or gauge. */
export interface RunUpFault {
  engine: number | null;
  of: { check: RunUpCheck } | { gauge: string };
  what: RunUpFaultKind;
}
