import { z } from "zod";
import { canonical } from "../evidence/canonical.ts";
import { isMembers } from "./members.ts";
import type { AircraftType } from "./schema.ts";
import { readAircraftType, type TypeFault } from "./validate.ts";

/** The caution in every exported type. */
export const TYPE_CAUTION =
  "These figures support a crew that has the aircraft's approved manual at hand; they never replace it. " +
  "Before use a second qualified person checks every figure against its source.";

/** The file that carries a type from one installation to another. */
const transferSchema = z.strictObject({ caution: z.string(), type: z.unknown() });

/** Returns the file of a type: canonical JSON (RFC 8785) of the caution and the type. */
export function writeTransfer(type: AircraftType): string {
  return canonical({ caution: TYPE_CAUTION, type });
}

/**
 * Returns the type in such a file, or every fault in it. Paths begin at the top of the file. A file that is the type
 * itself, without the caution, is read too: the types that come with the program are such files.
 */
export function readTransfer(data: unknown): { type: AircraftType } | { faults: TypeFault[] } {
  if (isMembers(data) && "engines" in data) return readAircraftType(data);
  const file = transferSchema.safeParse(data);
  if (!file.success || file.data.type === undefined)
    return { faults: [{ path: "", message: "is no file of an aircraft type: caution and type are needed" }] };
  const read = readAircraftType(file.data.type);
  if ("type" in read) return read;
  return { faults: read.faults.map((f) => ({ ...f, path: f.path === "" ? "type" : `type.${f.path}` })) };
}
