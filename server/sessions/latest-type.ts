import type { AircraftType } from "../../shared/types/schema.ts";
import type { Directory } from "../store/directory.ts";

/** The newest approved version of an aircraft type, null when none is approved: a draft is never started on. */
export async function latestType(directory: Directory, id: string): Promise<AircraftType | null> {
  const newest = (await directory.types()).find((t) => t.id === id && t.status === "approved");
  return newest ? ((await directory.type(id, newest.version))?.type ?? null) : null;
}
