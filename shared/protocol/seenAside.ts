import { z } from "zod";

/** The finding of a condition when the first of two people asked to set it aside. */
export const seenAsideSchema = z.strictObject({
  is: z.enum(["yes", "no", "stale", "unknown"]),
  /** Time of the report, server milliseconds; null where nobody reported. */
  at: z.number().int().nullable(),
  found: z.string().optional(),
  /** Ids of each defect, engine or person that the answer is about. */
  things: z.array(z.string()).optional(),
});
export type SeenAside = z.infer<typeof seenAsideSchema>;
