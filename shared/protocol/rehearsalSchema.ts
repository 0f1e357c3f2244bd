import { z } from "zod";
import { rehearsalScriptSchema } from "../rehearsal/script.ts";
import type { Rehearsal } from "./rehearsal.ts";
import { idSchema } from "./text.ts";

/** The form of `Rehearsal`. It stands apart, so that a panel need not load the schemas to know a rehearsal. */
export const rehearsalSchema = z.strictObject({
  seed: z.number().int().min(0).max(0xffff_ffff),
  script: idSchema,
  of: idSchema,
  played: rehearsalScriptSchema.optional(),
  back: z
    .strictObject({ session: idSchema, seq: z.number().int().min(1), later: z.number().int().min(0) })
    .optional(),
}) satisfies z.ZodType<Rehearsal>;
