import type { Attribution } from "../session/attribution.ts";

export const SERVICES = [
  "connectPower",
  "disconnectPower",
  "insertChocks",
  "removeChocks",
  "handlePropeller",
] as const;
export type Service = (typeof SERVICES)[number];

/** A service at the aircraft other than hands on a propeller. */
export type OutService = Exclude<Service, "handlePropeller">;

/** A leave that the crew gave, while neither its work is reported done nor its people clear. */
export interface LeaveOut {
  service: OutService;
  by: Attribution;
  /** Its number in the aircraft's record, if another session left it out. */
  no?: number;
}
