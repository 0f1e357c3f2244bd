import { z } from "zod";
import { POSTS, postSchema } from "./posts.ts";
import { quantitySchema } from "./quantity.ts";
import { answerSchema, channelSchema, firePlaceSchema, signalKindSchema } from "./signals.ts";
import { stageSchema } from "./stages.ts";
import { idSchema, line } from "./text.ts";

export const engineSchema = z.number().int().min(1).max(8);
const eventRef = z.number().int().min(1);
const reason = line(280);

export const crewSchema = z.strictObject(
  Object.fromEntries(POSTS.map((p) => [p, idSchema.nullable()])) as Record<
    (typeof POSTS)[number],
    z.ZodNullable<typeof idSchema>
  >,
);
export const powerSourceSchema = z.enum(["groundPower", "batteries"]);

/** Sends one signal. Optional fields belong to particular kinds; a stop is never refused for lacking one. */
export const sendSchema = z.strictObject({
  type: z.literal("send"),
  kind: signalKindSchema,
  engine: engineSchema.optional(),
  channel: channelSchema.default("panel"),
  /** The post whose hand signal the sender saw with their own eyes. */
  seenFrom: postSchema.optional(),
  /** The signal, hold, cut, fire or clearance this one is about (its event number). */
  ref: eventRef.optional(),
  volts: quantitySchema.optional(),
  pressure: quantitySchema.optional(),
  place: firePlaceSchema.optional(),
  note: reason.optional(),
});

/** What a person can ask of a session. Every one is answered accepted, duplicate or refused. */
export const actionSchema = z.discriminatedUnion("type", [
  sendSchema,
  z.strictObject({
    type: z.literal("answer"),
    signal: eventRef,
    answer: answerSchema,
    /** Re-entered by the person, never copied by the button. */
    engine: engineSchema.optional(),
    channel: channelSchema.default("panel"),
    note: reason.optional(),
  }),
  z.strictObject({
    type: z.literal("reading"),
    gauge: idSchema,
    engine: engineSchema.optional(),
    reading: quantitySchema,
  }),
  z.strictObject({
    type: z.literal("recordCheck"),
    check: idSchema,
    reading: quantitySchema.optional(),
    /** For a check without a figure: found good or not. */
    good: z.boolean().optional(),
    note: reason.optional(),
  }),
  z.strictObject({ type: z.literal("claimPost"), post: postSchema }),
  z.strictObject({ type: z.literal("leavePost"), post: postSchema }),
  z.strictObject({ type: z.literal("offerPost"), post: postSchema, to: idSchema }),
  z.strictObject({ type: z.literal("acceptPost"), post: postSchema }),
  z.strictObject({ type: z.literal("vacatePost"), post: postSchema, reason }),
  z.strictObject({ type: z.literal("confirmBrief") }),
  z.strictObject({
    type: z.literal("amendPlan"),
    order: z.array(engineSchema).min(1).max(8).optional(),
    powerSource: powerSourceSchema.optional(),
    reason: reason.optional(),
  }),
  z.strictObject({ type: z.literal("advance"), to: stageSchema }),
  z.strictObject({ type: z.literal("abandon"), reason }),
  z.strictObject({ type: z.literal("acknowledgeAlert"), alert: eventRef }),
]);
export type Action = z.infer<typeof actionSchema>;
export type ActionType = Action["type"];
export type Send = z.infer<typeof sendSchema>;

export const commandSchema = z.strictObject({
  v: z.literal(1),
  id: z.uuid(),
  session: idSchema,
  /** The panel's own clock, milliseconds since 1970: kept, never trusted. */
  clientAt: z.number().int().nonnegative(),
  /** Server time after which this command must not act any more. */
  validUntil: z.number().int().nonnegative().optional(),
  action: actionSchema,
});
export type Command = z.infer<typeof commandSchema>;
