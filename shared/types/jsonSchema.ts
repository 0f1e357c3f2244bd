import { z } from "zod";
import { aircraftTypeSchema } from "./schema.ts";

/**
 * Returns the shape of an aircraft type as JSON Schema, draft 2020-12. `readAircraftType` checks what a shape cannot
 * express, for example that a limit has its gauge's unit.
 */
export function aircraftTypeJsonSchema(): Record<string, unknown> {
  const schema = z.toJSONSchema(aircraftTypeSchema, { target: "draft-2020-12", io: "input", reused: "ref" });
  return { ...schema, $id: "urn:chockside:aircraft-type", title: "Aircraft type" };
}
