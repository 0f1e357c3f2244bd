import { z } from "zod";
import { CONDITION_IDS } from "./conditions.ts";
import { postSchema } from "./enums.ts";

const ms = z.number().int();

/** A condition's finding as reported to people. `overridden`: not met, and set aside for this engine by two people. */
export const conditionReportSchema = z.strictObject({
  id: z.enum(CONDITION_IDS),
  owners: z.array(postSchema).readonly(),
  is: z.enum(["yes", "no", "stale", "unknown", "overridden"]),
  at: ms.nullable(),
  by: z.strictObject({ post: postSchema.nullable(), name: z.string() }).nullable(),
  until: ms.nullable(),
  /** Age of the answer in milliseconds; null when nobody has answered. */
  age: ms.nullable(),
  found: z.string().optional(),
});
export type ConditionReport = z.infer<typeof conditionReportSchema>;
