import { z } from "zod";
import { aircraftTypeSchema } from "./schema.ts";

/**
 * The shape of an aircraft type as JSON Schema, draft 2020-12. What a shape cannot say, `readAircraftType` says: that
 * a limit has its gauge's unit, for example.
 */
export function aircraftTypeJsonSchema(): Record<string, unknown> {
  const schema = z.toJSONSchema(aircraftTypeSchema, { target: "draft-2020-12", io: "input", reused: "ref" });
  return { ...schema, $id: "urn:chockside:aircraft-type", title: "Aircraft type" };
}
