import type { AircraftType } from "../../shared/types/schema.ts";
import type { Directory } from "../store/directory.ts";

/**
 * Returns the newest approved version of an aircraft type; null when none is approved. A draft is never used for a
 * start.
 */
export async function latestType(directory: Directory, id: string): Promise<AircraftType | null> {
  const newest = (await directory.types()).find((t) => t.id === id && t.status === "approved");
  return newest ? ((await directory.type(id, newest.version))?.type ?? null) : null;
}
