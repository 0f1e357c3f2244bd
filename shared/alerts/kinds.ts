import type { AlertKind } from "../protocol/alerts.ts";
import { POSTS, type Post } from "../protocol/posts.ts";

/** Priorities after IMO MSC.302(87): emergency alarm, alarm, warning, caution. */
export type Priority = "emergency" | "alarm" | "warning" | "caution";

export interface AlertRule {
  to: readonly Post[];
  priority: Priority;
  /** Stays after its cause has gone until acknowledged and reset. Never shelved or suppressed. */
  latching: boolean;
}

const CREW_AND_SUPERVISOR: readonly Post[] = ["cockpit", "supervisor"];

/** One rule per kind. A normal start raises none of them; routine signals are not alerts. */
export const ALERT_RULES: Readonly<Record<AlertKind, AlertRule>> = {
  fire: { to: POSTS, priority: "emergency", latching: true },
  cut: { to: POSTS, priority: "emergency", latching: true },
  hold: { to: POSTS, priority: "alarm", latching: true },
  turningUncleared: { to: POSTS, priority: "alarm", latching: false },
  guardMissing: { to: POSTS, priority: "alarm", latching: false },
  oilFirstLate: { to: CREW_AND_SUPERVISOR, priority: "alarm", latching: false },
  oilNormalLate: { to: CREW_AND_SUPERVISOR, priority: "alarm", latching: false },
  starterLimit: { to: ["cockpit"], priority: "warning", latching: false },
  groundPowerOutOfRange: { to: ["cockpit", "groundPower"], priority: "warning", latching: false },
  unanswered: { to: CREW_AND_SUPERVISOR, priority: "warning", latching: false },
};

/** The longest an alert may be shelved, minutes: our own judgement. */
export const SHELVE_MAX_MIN = 15;
