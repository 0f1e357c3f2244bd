import { z } from "zod";
import { engineSchema } from "./commands.ts";
import { firePlaceSchema } from "./enums.ts";
import { daySchema } from "./equipment.ts";
import { eventSchema } from "./events.ts";
import { pictureSchema, sha256Schema } from "./pictures.ts";
import {
  attributionSchema,
  contributionSchema,
  deferralSchema,
  fireWordSchema,
  itemSchema,
  mendedSchema,
} from "./standing.ts";
import { line } from "./text.ts";

const ref = z.number().int().min(1);

/** A fact of an aircraft's own record. */
export const recordFactSchema = z.discriminatedUnion("type", [
  z.strictObject({
    type: z.literal("opened"),
    aircraft: z.string(),
    engines: z.number().int().min(1).max(8),
  }),
  /** A session's part of the record changed. `over`: the session has ended and adds nothing more to the record. */
  z.strictObject({
    type: z.literal("contributed"),
    session: z.string(),
    through: ref,
    over: z.boolean(),
    contribution: contributionSchema,
  }),
  /** Something was reported while no session was open. */
  z.strictObject({ type: z.literal("reported"), item: itemSchema }),
  z.strictObject({ type: z.literal("ended"), no: ref, reason: z.string().optional() }),
  /** A supervisor deferred a defect. */
  z.strictObject({ type: z.literal("deferred"), no: ref, deferral: deferralSchema }),
  /** A defect was mended, and waits for its inspection by another person. */
  z.strictObject({ type: z.literal("mended"), no: ref, mended: mendedSchema }),
  /** Another person inspected a mended defect. That closes it. */
  z.strictObject({
    type: z.literal("inspected"),
    no: ref,
    reason: z.string(),
    by: attributionSchema,
    person: z.string(),
  }),
  /** Somebody added a picture to an open defect. */
  z.strictObject({
    type: z.literal("pictured"),
    no: ref,
    picture: pictureSchema,
    by: attributionSchema,
    person: z.string(),
  }),
  /** A supervisor removed a picture's bytes. */
  z.strictObject({
    type: z.literal("pictureRemoved"),
    no: ref,
    sha256: sha256Schema,
    reason: z.string(),
    by: attributionSchema,
    person: z.string(),
  }),
  /** Somebody said where a fire burns while no session was needed for it. */
  z.strictObject({ type: z.literal("located"), no: ref, word: fireWordSchema }),
]);
export type RecordFact = z.infer<typeof recordFactSchema>;

/** One event of an aircraft's record. `session` is the record's own id. */
export const recordEventSchema = eventSchema.extend({ fact: recordFactSchema });
export type RecordEvent = z.infer<typeof recordEventSchema>;

/** Reports and ends that a person may give to an aircraft's record without a session. */
export const recordActionSchema = z.discriminatedUnion("type", [
  z.strictObject({
    type: z.literal("stop"),
    is: z.enum(["hold", "cut", "fire"]),
    engine: engineSchema.optional(),
    place: z.enum(["induction", "exhaust", "nacelle", "groundEquipment", "notSaid"]).optional(),
    note: line(280).optional(),
  }),
  z.strictObject({
    type: z.literal("fireAt"),
    /** The fire's number in the record. Absent: the last fire that this person reported without a session. */
    no: ref.optional(),
    engine: engineSchema.optional(),
    place: firePlaceSchema.optional(),
  }),
  z.strictObject({
    type: z.literal("end"),
    /** The item's number in the record. */
    no: ref,
    reason: line(280),
  }),
  z.strictObject({
    type: z.literal("deferDefect"),
    /** The defect's number in the record. */
    no: ref,
    /** The last day on which it does not bar a start. */
    until: daySchema.optional(),
    /** Starts for which it bars none. At least one of both is given. */
    starts: z.number().int().min(1).max(1_000).optional(),
    reason: line(280),
  }),
  z.strictObject({
    type: z.literal("inspectDefect"),
    /** The defect's number in the record. */
    no: ref,
    /** The finding. */
    reason: line(280),
  }),
  z.strictObject({
    type: z.literal("writeDefect"),
    words: line(280),
    engine: engineSchema.optional(),
    barsStart: z.boolean(),
  }),
]);
export type RecordAction = z.infer<typeof recordActionSchema>;
