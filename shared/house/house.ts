import { z } from "zod";
import { line } from "../protocol/text.ts";
import { LAPSE_RULES } from "./lapseRule.ts";

const rule = z.enum(LAPSE_RULES);

/** For each kind of equipment, whether a date that is over bars its use. A house that has not decided bars it. */
export const overdueSchema = z.strictObject({
  cart: rule,
  extinguisher: rule,
  chocks: rule,
  towBar: rule,
  headset: rule,
});
export type OverdueRules = z.infer<typeof overdueSchema>;

export const ALL_BAR: OverdueRules = {
  cart: "bars",
  extinguisher: "bars",
  chocks: "bars",
  towBar: "bars",
  headset: "bars",
};

/** The house itself: the organisation whose register it is. There is one. */
export const houseSchema = z.strictObject({
  id: z.literal("house"),
  name: line(60),
  overdue: overdueSchema.default(ALL_BAR),
  /** Another person than the one who mended a defect must inspect it. */
  inspectsDefects: z.boolean().default(false),
});
export type House = z.infer<typeof houseSchema>;
