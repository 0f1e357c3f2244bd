import { z } from "zod";
import { conditionReportSchema } from "./conditionReport.ts";
import { postSchema, stageSchema } from "./enums.ts";
import { REFUSAL_REASONS } from "./refusals.ts";

/** A refusal: its reason and the details. */
export const refusalSchema = z.strictObject({
  reason: z.enum(REFUSAL_REASONS),
  engine: z.number().int().optional(),
  /** Posts that may do what was refused, or meet what is missing. */
  posts: z.array(postSchema).optional(),
  stages: z.array(stageSchema).optional(),
  /** Every condition that is not met, with the posts that can meet it and the age of its answer. */
  unmet: z.array(conditionReportSchema).optional(),
  /** Codes of stage requirements not met, e.g. `check:battery1`. */
  missing: z.array(z.string()).optional(),
  /** The figure or state that prevents the action. */
  found: z.string().optional(),
});
export type Refusal = z.infer<typeof refusalSchema>;

export type CommandResult =
  | { status: "accepted"; seq: number }
  | { status: "duplicate"; seq: number; refusal?: Refusal }
  | { status: "refused"; seq: number | null; refusal: Refusal };
