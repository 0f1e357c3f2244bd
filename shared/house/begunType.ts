import { z } from "zod";
import { idSchema, line } from "../protocol/text.ts";

/**
 * A type that somebody began from nothing and has not finished: what was entered of it so far, gaps and faults
 * included. Once a version of the type exists, it is over.
 */
export const begunTypeSchema = z.strictObject({
  /** The identifier of the type. */
  id: idSchema,
  name: line(60),
  entered: z.record(z.string(), z.unknown()),
  /** Given up: it is no longer offered. */
  givenUp: z.boolean(),
});
export type BegunType = z.infer<typeof begunTypeSchema>;
