import type { AircraftType } from "../../shared/types/schema.ts";

/** Whether somebody is named as having approved the type's figures. */
export function typeStatus(type: AircraftType): "approved" | "notApproved" {
  return type.approvedBy === null ? "notApproved" : "approved";
}
