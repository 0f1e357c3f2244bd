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
  /**
   * Days that a finished rehearsal at the post counts; absent: never. Only for a kind that counts no start: recency on
   * the aircraft itself is never rehearsed.
   */
  rehearsalDays: z.number().int().min(1).max(3650).optional(),
  /** For each post, what a lapse does there; null where the post does not need it. */
  needs: z.strictObject({ cockpit: need, fireGuard: need, groundPower: need, supervisor: need }),
  /** Kept with its dates, and asked of nobody. */
  retired: z.boolean(),
});

/** Returns true unless a kind counts rehearsals beside starts. */
export const apartFromStarts = (kind: Pick<Currency, "recencyDays" | "rehearsalDays">): boolean =>
  kind.recencyDays === null || kind.rehearsalDays === undefined;

/** The place of the fault, and what to do. */
export const NOT_APART = {
  path: ["rehearsalDays"],
  message: "cannot stand beside recencyDays: make it a currency of its own",
};
export type Currency = z.infer<typeof currencySchema>;
