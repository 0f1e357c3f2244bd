import { z } from "zod";
import { CONDITION_IDS } from "./conditions.ts";
import {
  answerSchema,
  channelSchema,
  firePlaceSchema,
  postSchema,
  signalKindSchema,
  stageSchema,
} from "./enums.ts";
import { labelSchema } from "./equipment.ts";
import { MOST_NEIGHBOURS, NEIGHBOURS } from "./neighbours.ts";
import { POSTS } from "./posts.ts";
import { quantitySchema } from "./quantity.ts";
import { idSchema, line } from "./text.ts";
import { TRACE_SAMPLES } from "./trace.ts";

export const engineSchema = z.number().int().min(1).max(8);
const eventRef = z.number().int().min(1);
const reason = line(280);

/** Figures of a run-up, in the order they are read. */
export const RUN_UP_ITEMS = [
  "powerManifold",
  "powerRpm",
  "magnetoBoth",
  "magnetoLeft",
  "magnetoRight",
  "featherBefore",
  "featherLowest",
  "featherAfter",
] as const;
export type RunUpItem = (typeof RUN_UP_ITEMS)[number];

export const crewSchema = z.strictObject(
  Object.fromEntries(POSTS.map((p) => [p, idSchema.nullable()])) as Record<
    (typeof POSTS)[number],
    z.ZodNullable<typeof idSchema>
  >,
);
const standMetres = (least: number, most: number) =>
  z.strictObject({ value: z.number().min(least).max(most), unit: z.enum(["m", "ft"]) });
/** The neighbours in a plan. */
export const standNeighboursSchema = z
  .array(
    z.strictObject({
      kind: z.enum(NEIGHBOURS),
      name: line(40),
      bearingDeg: z.number().min(0).max(360),
      distance: standMetres(0, 2000),
      across: standMetres(0.1, 500),
    }),
  )
  .max(MOST_NEIGHBOURS);
export const powerSourceSchema = z.enum(["groundPower", "batteries"]);

/** Sends one signal. Optional fields belong to particular kinds; a stop is never refused for lacking one. */
export const sendSchema = z.strictObject({
  type: z.literal("send"),
  kind: signalKindSchema,
  engine: engineSchema.optional(),
  channel: channelSchema.default("panel"),
  /** The post whose hand signal the sender saw with their own eyes. */
  seenFrom: postSchema.optional(),
  /** Time at which it was seen, server milliseconds by the recorder's panel. Absent: the time of recording. */
  seenAt: z.number().int().nonnegative().optional(),
  /** The signal, hold, cut, fire or clearance this one is about (its event number). */
  ref: eventRef.optional(),
  volts: quantitySchema.optional(),
  pressure: quantitySchema.optional(),
  place: firePlaceSchema.optional(),
  /** The guard walked around turning arcs, not through one. */
  walkedAround: z.literal(true).optional(),
  /** The aircraft at which a supervisor of several says to stand. Only a clearance uses it. */
  standsAt: idSchema.optional(),
  note: reason.optional(),
});

const traceMs = z.number().min(0).max(600_000);
export const traceSamplesSchema = z
  .array(z.tuple([traceMs, z.number().min(-100).max(100)]))
  .min(2)
  .max(TRACE_SAMPLES);
/** Periods in which an engine was cranked, in milliseconds of the trace. */
export const traceCrankingSchema = z.array(z.strictObject({ from: traceMs, to: traceMs })).max(8);

/** A person's request to a session. Each one is answered accepted, duplicate or refused. */
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
  /** The answer to one item of the card: done or not, alive or not, or the figure that was read. */
  z.strictObject({
    type: z.literal("answerCard"),
    item: idSchema,
    engine: engineSchema.optional(),
    good: z.boolean().optional(),
    reading: quantitySchema.optional(),
    note: reason.optional(),
  }),
  /** One person reads an item of the card out, for another to do. */
  z.strictObject({ type: z.literal("readCard"), item: idSchema, engine: engineSchema.optional() }),
  /** A meter's trace of ground power: milliseconds since the trace began, and the volts then. */
  z.strictObject({
    type: z.literal("giveVoltTrace"),
    samples: traceSamplesSchema,
    cranking: traceCrankingSchema,
    /** Milliseconds since the last sample, as the person entered it. */
    endedAgoMs: z.number().int().min(0).max(3_600_000),
  }),
  /** The label of a piece of equipment at the stand, scanned or typed. */
  z.strictObject({ type: z.literal("showEquipment"), label: labelSchema }),
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
    /** Degrees true of the nose. */
    headingDeg: z.number().min(0).max(360).optional(),
    reason: reason.optional(),
  }),
  z.strictObject({ type: z.literal("advance"), to: stageSchema }),
  z.strictObject({ type: z.literal("abandon"), reason }),
  z.strictObject({ type: z.literal("acknowledgeAlert"), alert: eventRef }),
  z.strictObject({ type: z.literal("shelveAlert"), alert: eventRef, minutes: z.number().int().min(1) }),
  /** A touch: the person is there and looking. */
  z.strictObject({ type: z.literal("present") }),
  /** The panel shows these signals. The device says so, so it never counts as a person's answer or touch. */
  z.strictObject({ type: z.literal("delivered"), signals: z.array(eventRef).min(1).max(50) }),
  z.strictObject({
    type: z.literal("override"),
    condition: z.enum(CONDITION_IDS),
    engine: engineSchema,
    reason,
  }),
  z.strictObject({
    type: z.literal("countBlades"),
    engine: engineSchema,
    blades: z.number().int().min(0).max(200),
    resistance: z.boolean(),
  }),
  z.strictObject({
    type: z.literal("recordWeather"),
    /** The report as pasted. A figure that the person enters replaces the report's own. */
    metar: line(500).optional(),
    windKt: z.number().min(0).max(150).optional(),
    gustKt: z.number().min(0).max(200).optional(),
    fromDeg: z.number().int().min(0).max(360).optional(),
    temperatureC: z.number().min(-60).max(60).optional(),
    dewPointC: z.number().min(-80).max(60).optional(),
    qnhHpa: z.number().min(850).max(1090).optional(),
  }),
  /**
   * A flash that was seen. Its distance is given as seconds to the thunder or as statute miles, or not at all when
   * nobody could tell.
   */
  z.strictObject({
    type: z.literal("recordFlash"),
    thunderAfterS: z.number().min(0).max(300).optional(),
    miles: z.number().min(0).max(60).optional(),
    /** The flash whose distance this gives: the same person reported it without one. */
    of: eventRef.optional(),
  }),
  /** One figure of an engine's run-up. Each figure is read and sent by itself. */
  z.strictObject({
    type: z.literal("recordRunUp"),
    engine: engineSchema,
    item: z.enum(RUN_UP_ITEMS),
    reading: quantitySchema,
  }),
  z.strictObject({
    type: z.literal("writeDefect"),
    words: reason,
    engine: engineSchema.optional(),
    barsStart: z.boolean(),
  }),
  z.strictObject({ type: z.literal("closeDefect"), defect: idSchema, reason }),
  z.strictObject({ type: z.literal("startDrill"), drill: idSchema, engine: engineSchema.optional() }),
  z.strictObject({
    type: z.literal("drillStep"),
    run: eventRef,
    step: z.number().int().nonnegative(),
    done: z.boolean(),
    note: reason.optional(),
  }),
  z.strictObject({ type: z.literal("endDrill"), run: eventRef, outcome: reason }),
]);
export type Action = z.infer<typeof actionSchema>;
export type ActionType = Action["type"];
export type Send = z.infer<typeof sendSchema>;

export const commandSchema = z.strictObject({
  v: z.literal(1),
  id: z.uuid(),
  session: idSchema,
  /** The panel's own clock, milliseconds since 1970. It is recorded but never trusted. */
  clientAt: z.number().int().nonnegative(),
  /** Server time after which this command must no longer take effect. */
  validUntil: z.number().int().nonnegative().optional(),
  action: actionSchema,
});
export type Command = z.infer<typeof commandSchema>;
