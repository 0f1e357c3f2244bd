import { z } from "zod";
import { DRILL_ALERTS, type DrillAlert } from "../protocol/alerts.ts";
import { POSTS } from "../protocol/posts.ts";
import { FIRE_PLACES, type FirePlace } from "../protocol/signals.ts";
import { idSchema, line } from "../protocol/text.ts";
import { sourceSchema } from "./limit.ts";

/**
 * The event that opens a drill: a fire at a place, or at no place said yet; an alert or resistance. A person opens a
 * `manual` one.
 */
export type Trigger = `fire:${FirePlace}` | `alert:${DrillAlert}` | "blades:resistance" | "manual";

const TRIGGERS: readonly Trigger[] = [
  ...FIRE_PLACES.map((place) => `fire:${place}` as const),
  ...DRILL_ALERTS.map((kind) => `alert:${kind}` as const),
  "blades:resistance",
  "manual",
];
const triggerSchema = z.enum(TRIGGERS);

/** Starts that an open drill bars: that of its engine, those of every engine, or none. */
export const BARS = ["engine", "all", "nothing"] as const;
export type Bars = (typeof BARS)[number];

const stepSchema = z.strictObject({
  words: line(140),
  wordsEs: line(210).optional(),
  /** Seconds from the drill's start within which it should be done, null where none is published. */
  withinS: z.number().positive().max(3600).nullable(),
  /** Asked only while the drill's engine does not turn; for a drill at no particular engine, only while none turns. */
  atStandstill: z.boolean().optional(),
  /** Done only once a defect was written since the drill began, at the drill's engine if it has one. */
  writesDefect: z.boolean().optional(),
});

export type DrillStep = z.infer<typeof stepSchema>;

/** An abnormal procedure of the type: each post's actions in order. Sources differ; a type chooses. */
export const drillSchema = z.strictObject({
  id: idSchema,
  title: line(60),
  titleEs: line(90).optional(),
  triggers: z.array(triggerSchema).min(1).max(20),
  /** The starts that it bars until a person ends it; its source is the drill's. Absent in older types. */
  bars: z.enum(BARS).optional(),
  cards: z.strictObject(
    Object.fromEntries(POSTS.map((p) => [p, z.array(stepSchema).max(12)])) as Record<
      (typeof POSTS)[number],
      z.ZodArray<typeof stepSchema>
    >,
  ),
  source: sourceSchema,
});
export type Drill = z.infer<typeof drillSchema>;
