import { z } from "zod";
import { POSTS } from "../protocol/posts.ts";
import { idSchema, line } from "../protocol/text.ts";
import { sourceSchema } from "./limit.ts";

/** What opens a drill by itself: a fire at a place, or an alert. `manual` is opened by a person. */
export const TRIGGERS = [
  "fire:induction",
  "fire:exhaust",
  "fire:nacelle",
  "fire:groundEquipment",
  "alert:turningUncleared",
  "alert:guardMissing",
  "alert:oilFirstLate",
  "alert:oilNormalLate",
  "alert:groundPowerOutOfRange",
  "blades:resistance",
  "manual",
] as const;
export const triggerSchema = z.enum(TRIGGERS);
export type Trigger = z.infer<typeof triggerSchema>;

const stepSchema = z.strictObject({
  words: line(140),
  /** Seconds from the drill's start within which it should be done, null where none is published. */
  withinS: z.number().positive().max(3600).nullable(),
});

/** An abnormal procedure of the type: each post's actions in order. Sources differ; a type chooses. */
export const drillSchema = z.strictObject({
  id: idSchema,
  title: line(60),
  triggers: z.array(triggerSchema).min(1),
  cards: z.strictObject(
    Object.fromEntries(POSTS.map((p) => [p, z.array(stepSchema).max(12)])) as Record<
      (typeof POSTS)[number],
      z.ZodArray<typeof stepSchema>
    >,
  ),
  source: sourceSchema,
});
export type Drill = z.infer<typeof drillSchema>;
