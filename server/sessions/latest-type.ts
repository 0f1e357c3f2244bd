import type { AircraftType } from "../../shared/types/schema.ts";
import type { Directory } from "../store/directory.ts";

/** The newest version of an aircraft type, null when there is no such type. */
export async function latestType(directory: Directory, id: string): Promise<AircraftType | null> {
  const versions = (await directory.types()).filter((t) => t.id === id).map((t) => t.version);
  return versions.length === 0 ? null : directory.type(id, Math.max(...versions));
}
