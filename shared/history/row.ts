import { z } from "zod";
import { ALERT_KINDS } from "../protocol/alerts.ts";
import { engineSchema } from "../protocol/commands.ts";
import { CONDITION_IDS } from "../protocol/conditions.ts";
import { postSchema } from "../protocol/enums.ts";
import { quantitySchema } from "../protocol/quantity.ts";
import { REFUSAL_REASONS } from "../protocol/refusals.ts";
import { HISTORY_FIGURE_IDS, type HistoryFigure } from "./figures.ts";

const ms = z.number().int();
const figures = z.strictObject(
  Object.fromEntries(HISTORY_FIGURE_IDS.map((id) => [id, quantitySchema.optional()])) as Record<
    HistoryFigure,
    z.ZodOptional<typeof quantitySchema>
  >,
);

/** A hold, cut or fire, and why. The reason is what the person wrote; null where they wrote none. */
const stopSchema = z.strictObject({
  is: z.enum(["hold", "cut", "fire"]),
  /** Its number in the session. */
  id: z.number().int(),
  at: ms,
  /** The moment at which it was released or ended; null while it stands, and when the session ended with it. */
  ended: ms.nullable(),
  by: z.string(),
  /** The post that raised it, or whose silence did; null for an observer. */
  post: postSchema.nullable(),
  reason: z.string().nullable(),
});

const alertSchema = z.strictObject({
  kind: z.enum(ALERT_KINDS),
  engine: engineSchema.nullable(),
  /** Its number in the session. An alert whose cause comes back before it is settled keeps its number. */
  id: z.number().int(),
  at: ms,
  /** The moment at which its cause was gone; null while it is there, and when the session ended with it. */
  ended: ms.nullable(),
  /** True when a post put it aside. */
  shelved: z.boolean(),
  /** True when, while its cause was there, a person did anything besides acknowledging, shelving and being present. */
  acted: z.boolean(),
});

/** Something that the core refused, and why. */
const refusalSchema = z.strictObject({
  at: ms,
  /** The post of the person who was refused; null for an observer. */
  post: postSchema.nullable(),
  reason: z.enum(REFUSAL_REASONS),
  /** The conditions that were not met, if that is why. */
  conditions: z.array(z.enum(CONDITION_IDS)),
});

/** What a session's record raises around a start. */
export const raisedSchema = z.strictObject({
  alerts: z.array(alertSchema),
  stops: z.array(stopSchema),
  refusals: z.array(refusalSchema),
  /** Touches that said that a person is there. */
  touches: z.number().int(),
});
export type Raised = z.infer<typeof raisedSchema>;

/** Figures that both people and instruments tell. */
export const MEASURED_FIGURES = ["starter", "volts", "oilFirst"] as const;
export type MeasuredFigure = (typeof MEASURED_FIGURES)[number];

/** A figure of which people said something else than instruments measured, by more than the type allows. */
const differenceSchema = z.strictObject({
  figure: z.enum(MEASURED_FIGURES),
  said: z.number(),
  measured: z.number(),
  /** The type's tolerance. */
  within: z.number(),
});

/** One start of one engine: one engagement of its starter, and what followed. */
export const startRowSchema = z.strictObject({
  session: z.string(),
  /** The event that recorded the engagement. */
  seq: z.number().int(),
  aircraft: z.string(),
  /** The engine's place at the aircraft then. */
  n: engineSchema,
  /** The engine's serial number as the register had it when the start was planned; null where it had none. */
  serial: z.string().nullable(),
  /** The engine's hours, and the starter fitted, by the register then. */
  hours: z.number().nullable(),
  starter: z.string().nullable(),
  /** The engagement, server milliseconds. */
  at: ms,
  /** The nth engagement of this engine in its session. */
  attempt: z.number().int(),
  /** False when it turned without clearance. */
  cleared: z.boolean(),
  /** How far it came. */
  reached: z.enum(["cranked", "caught", "running", "stable"]),
  /** Null while it turns, and when its session ended with it turning. */
  ended: z.enum(["waiting", "cooling", "shutDown"]).nullable(),
  /** Resistance felt when its blades were counted; null where none were. */
  resistance: z.boolean().nullable(),
  power: z.enum(["groundPower", "batteries"]),
  figures,
  exceeded: z.array(
    z.strictObject({
      limit: z.enum(["starterTime", "oilFirst", "oilNormal"]),
      allowed: z.number(),
      found: z.number(),
    }),
  ),
  differs: z.array(differenceSchema),
  /** Who held each post at the engagement, as the sealed record names them; null where nobody did. */
  crew: z.strictObject({
    cockpit: z.string().nullable(),
    fireGuard: z.string().nullable(),
    groundPower: z.string().nullable(),
    supervisor: z.string().nullable(),
  }),
  /** Labels of the equipment of the start. */
  equipment: z.array(z.string()),
  ...raisedSchema.shape,
});
export type StartRow = z.infer<typeof startRowSchema>;
export type StartStop = z.infer<typeof stopSchema>;
export type StartAlert = z.infer<typeof alertSchema>;
export type StartRefusal = z.infer<typeof refusalSchema>;
