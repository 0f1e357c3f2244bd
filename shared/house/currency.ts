import { z } from "zod";
import { idSchema, line } from "../protocol/text.ts";
import { LAPSE_RULES } from "./lapseRule.ts";

const need = z.enum(LAPSE_RULES).nullable();

/** One kind of currency that the house keeps, such as type training. */
export const currencySchema = z.strictObject({
  id: idSchema,
  name: line(60),
  /**
   * Days that a start at the post counts; null when each person has an end date alone. With it a person is current to
   * the later of the two.
   */
  recencyDays: z.number().int().min(1).max(3650).nullable(),
  /** For each post, what a lapse does there; null where the post does not need it. */
  needs: z.strictObject({ cockpit: need, fireGuard: need, groundPower: need, supervisor: need }),
  /** Kept with its dates, and asked of nobody. */
  retired: z.boolean(),
});
export type Currency = z.infer<typeof currencySchema>;
