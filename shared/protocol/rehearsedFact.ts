import { z } from "zod";
import { postSchema } from "./enums.ts";
import { FAULTS } from "./rehearsalFaults.ts";

const engine = z.number().int().min(1).max(8);
const person = z.strictObject({ id: z.string(), name: z.string() });

/** Damage to the simulated aircraft by the end, by limits of its type and by figures that no crew sees. */
export const SUFFERED = ["starterHeat", "withoutOil"] as const;
export type Suffered = (typeof SUFFERED)[number];

/** A fact of the simulated world, recorded so that a debrief needs the record alone. */
export const rehearsedSchema = z.discriminatedUnion("is", [
  /** A fault began. The crew is not told: it has to see it. */
  z.strictObject({ is: z.literal("fault"), fault: z.enum(FAULTS), engine: engine.optional() }),
  /** A mark of somebody who watches as an instructor. */
  z.strictObject({ is: z.literal("mark"), words: z.string(), by: person }),
  /** A word of theirs to whoever holds one post. It asks for nothing that the protocol knows. */
  z.strictObject({ is: z.literal("word"), post: postSchema, words: z.string(), by: person }),
  z.strictObject({
    is: z.literal("suffered"),
    engine,
    what: z.enum(SUFFERED),
    found: z.number(),
    /** The type's limit; null where it has none. */
    allowed: z.number().nullable(),
    unit: z.enum(["K", "s"]),
  }),
]);
export type Rehearsed = z.infer<typeof rehearsedSchema>;
