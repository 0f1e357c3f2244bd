import { z } from "zod";
import { canonical } from "../evidence/canonical.ts";
import type { AircraftType } from "./schema.ts";
import { readAircraftType, type TypeFault } from "./validate.ts";

/** Goes with every exported type. */
export const TYPE_CAUTION =
  "These figures support a crew that has the aircraft's approved manual at hand; they never replace it. " +
  "Before use a second qualified person checks every figure against its source.";

/** A type on its way from one house to another. */
const transferSchema = z.strictObject({ caution: z.string(), type: z.unknown() });

/** The file a type is carried in: canonical JSON (RFC 8785) of the caution and the type. */
export function writeTransfer(type: AircraftType): string {
  return canonical({ caution: TYPE_CAUTION, type });
}

/** Reads what such a file holds, or names everything wrong with it; paths begin at the file's top. */
export function readTransfer(data: unknown): { type: AircraftType } | { faults: TypeFault[] } {
  const file = transferSchema.safeParse(data);
  if (!file.success || file.data.type === undefined)
    return { faults: [{ path: "", message: "is no file of an aircraft type: caution and type are needed" }] };
  const read = readAircraftType(file.data.type);
  if ("type" in read) return read;
  return { faults: read.faults.map((f) => ({ ...f, path: f.path === "" ? "type" : `type.${f.path}` })) };
}
