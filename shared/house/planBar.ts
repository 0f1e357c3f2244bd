import type { HouseAircraft } from "./aircraft.ts";

/** A version of a type, as far as planning asks. `superseded`: approved, and a newer version is approved too. */
export interface VersionStatus {
  id: string;
  version: number;
  status: "draft" | "approved" | "superseded";
}

/** The reason why an aircraft cannot be planned. */
export type PlanBar =
  | { is: "retired" }
  /** No version of its type is approved. */
  | { is: "noneApproved"; typeId: string }
  /** It is operated by a version that is not approved; `newest` is. */
  | { is: "notApproved"; version: number; newest: number }
  /** A newer version of its type is approved: somebody must look at what changes, and move the aircraft to it. */
  | { is: "superseded"; version: number; newest: number };

/** Returns the approved version of a type; null when none is approved. */
export function newestApproved(typeId: string, versions: readonly VersionStatus[]): number | null {
  return versions.find((v) => v.id === typeId && v.status === "approved")?.version ?? null;
}

/** Returns why the aircraft cannot be planned; null when it can. */
export function planBar(
  { retired, typeId, typeVersion: version }: HouseAircraft,
  versions: readonly VersionStatus[],
): PlanBar | null {
  if (retired) return { is: "retired" };
  const newest = newestApproved(typeId, versions);
  if (newest === null) return { is: "noneApproved", typeId };
  if (newest === version) return null;
  const own = versions.find((v) => v.id === typeId && v.version === version);
  return { is: own?.status === "superseded" ? "superseded" : "notApproved", version, newest };
}
