import { z } from "zod";
import type { Rehearsal } from "./rehearsal.ts";
import { idSchema } from "./text.ts";

/** The form of `Rehearsal`. It stands apart, so that a panel need not load the schemas to know a rehearsal. */
export const rehearsalSchema = z.strictObject({
  seed: z.number().int().min(0).max(0xffff_ffff),
  script: idSchema,
  of: idSchema,
}) satisfies z.ZodType<Rehearsal>;
