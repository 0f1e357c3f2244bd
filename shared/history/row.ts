import { z } from "zod";
import { ALERT_KINDS } from "../protocol/alerts.ts";
import { engineSchema } from "../protocol/commands.ts";
import { quantitySchema } from "../protocol/quantity.ts";
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
  at: ms,
  by: z.string(),
  reason: z.string().nullable(),
});

const alertSchema = z.strictObject({
  kind: z.enum(ALERT_KINDS),
  engine: engineSchema.nullable(),
  at: ms,
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
  /** Who held each post at the engagement, as the sealed record names them; null where nobody did. */
  crew: z.strictObject({
    cockpit: z.string().nullable(),
    fireGuard: z.string().nullable(),
    groundPower: z.string().nullable(),
    supervisor: z.string().nullable(),
  }),
  /** Labels of the equipment of the start. */
  equipment: z.array(z.string()),
  alerts: z.array(alertSchema),
  stops: z.array(stopSchema),
});
export type StartRow = z.infer<typeof startRowSchema>;
export type StartStop = z.infer<typeof stopSchema>;
export type StartAlert = z.infer<typeof alertSchema>;
