import { z } from "zod";
import type { Controls } from "../simulation/state.ts";
import { postSchema } from "./enums.ts";
import { FAULTS } from "./rehearsalFaults.ts";

const engine = z.number().int().min(1).max(8);
const person = z.strictObject({ id: z.string(), name: z.string() });

const part = z.number().min(0).max(1);

/** The form of the simulated cockpit's controls. */
export const controlsSchema = z.strictObject({
  engines: z.record(
    z.string().regex(/^[1-8]$/),
    z.strictObject({
      starter: z.boolean(),
      primer: z.boolean(),
      mixture: part,
      throttle: part,
      ignition: z.boolean(),
      boostPump: z.boolean(),
    }),
  ),
  vacuumFrom: engine.nullable(),
  generators: z.boolean(),
}) satisfies z.ZodType<Controls>;

/** Damage to the simulated aircraft by the end, by limits of its type and by figures that no crew sees. */
export const SUFFERED = ["starterHeat", "withoutOil"] as const;
export type Suffered = (typeof SUFFERED)[number];

/** A fact of the simulated world, recorded so that a debrief needs the record alone. */
export const rehearsedSchema = z.discriminatedUnion("is", [
  /** A fault began. The crew is not told: it has to see it. */
  z.strictObject({
    is: z.literal("fault"),
    fault: z.enum(FAULTS),
    engine: engine.optional(),
    /** The post that it befalls. */
    post: postSchema.optional(),
    /** The person who threw it; absent when the script brought it. */
    by: person.optional(),
  }),
  /** The controls of the simulated cockpit as a person sets them from now on; null leaves them to good hands. */
  z.strictObject({ is: z.literal("hands"), controls: controlsSchema.nullable() }),
  /** The pace of the world from now on. */
  z.strictObject({ is: z.literal("pace"), frozen: z.boolean(), speed: z.number().min(1).max(4), by: person }),
  /** The world stood still, because the server did: this many steps were played until now. */
  z.strictObject({ is: z.literal("stood"), steps: z.number().int().min(0) }),
  /** It ends here, and goes on in another rehearsal from its event `seq`. */
  z.strictObject({ is: z.literal("takenBack"), to: z.string(), seq: z.number().int().min(1), by: person }),
  /** It begins here: everything before is retold from another rehearsal. */
  z.strictObject({ is: z.literal("goesOn"), from: z.string(), seq: z.number().int().min(1), by: person }),
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
