import type { LeaveOut } from "../leaves/services.ts";
import type { LastReported, StandingItem } from "../protocol/standing.ts";
import type { Attribution } from "../session/attribution.ts";

/** The aircraft's record as a session knows it. */
export interface KnownStanding {
  /** Number of the last event of the record that the session was told of. */
  record: number;
  /** Items from elsewhere, as the session was last told them. */
  told: StandingItem[];
  /** Numbers of these items that this session has ended. */
  endedHere: number[];
  /** Hands that another session left on a propeller. */
  hands: { no: number; engine: number; by: Attribution }[];
  /** Leaves that another session left out. Absent in older records. */
  leaves?: (LeaveOut & { no: number })[];
  /** Engines left turning whose propeller nobody has yet seen stand still. */
  turning: { no: number; engine: number }[];
  /** Last reports of earlier sessions. They are shown with their age and meet no condition. */
  lastReported: LastReported;
}
