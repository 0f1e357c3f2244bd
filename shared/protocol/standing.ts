import { z } from "zod";
import { engineSchema } from "./commands.ts";
import { firePlaceSchema, postSchema } from "./enums.ts";
import { daySchema } from "./equipment.ts";
import { quantitySchema } from "./quantity.ts";

const ms = z.number().int();
const ref = z.number().int().min(1);

/** The reporter of something, the time, and the number of the event that recorded it. */
export const attributionSchema = z.strictObject({
  at: ms,
  seq: z.number().int(),
  post: postSchema.nullable(),
  name: z.string(),
  seenFrom: postSchema.nullable(),
});

/** One person's word of where a fire burns, after it was reported. */
export const fireWordSchema = z.strictObject({
  by: attributionSchema,
  person: z.string(),
  engine: engineSchema.nullable(),
  place: firePlaceSchema,
});
export type FireWord = z.infer<typeof fireWordSchema>;

const fireWordsSchema = z.array(fireWordSchema);

const usedStarterSchema = z.strictObject({
  on: ms,
  off: ms.nullable(),
  onMax: z.number(),
  lowest: z
    .strictObject({
      ...quantitySchema.shape,
      at: ms,
      name: z.string(),
      from: z.enum(["busVolts", "groundPower"]),
    })
    .optional(),
  expected: z.number().optional(),
});

/**
 * That a defect does not bar a start to the end of a day, UTC, or for a number of starts, whichever is over first: who
 * decided it, and why. One without either defers nothing.
 */
export const deferralSchema = z.strictObject({
  until: daySchema.optional(),
  starts: z.number().int().min(1).optional(),
  reason: z.string(),
  by: attributionSchema,
  person: z.string(),
});
export type Deferral = z.infer<typeof deferralSchema>;

/** That a defect is mended and waits for its inspection by another person: what was done, and by whom. */
export const mendedSchema = z.strictObject({
  reason: z.string(),
  by: attributionSchema,
  person: z.string(),
});
export type Mended = z.infer<typeof mendedSchema>;

/** That a session closed a defect, with what was done. */
const closedDefectSchema = z.strictObject({ id: z.string(), reason: z.string(), by: attributionSchema });

/** One thing that stands at an aircraft, as the session that knows of it reports it. */
export const itemSchema = z.discriminatedUnion("is", [
  z.strictObject({
    is: z.literal("hold"),
    ref,
    by: attributionSchema,
    person: z.string().nullable(),
    note: z.string().nullable(),
  }),
  z.strictObject({
    is: z.literal("cut"),
    ref,
    by: attributionSchema,
    person: z.string(),
    engine: engineSchema.nullable(),
  }),
  z.strictObject({
    is: z.literal("fire"),
    ref,
    by: attributionSchema,
    engine: engineSchema.nullable(),
    place: firePlaceSchema,
    /** Later words of where it burns, oldest first. Absent without any. */
    said: fireWordsSchema.optional(),
  }),
  /** Somebody has hands on this engine's propeller. */
  z.strictObject({ is: z.literal("hands"), ref, by: attributionSchema, engine: engineSchema }),
  /** People may be at the aircraft on a leave that the crew gave. */
  z.strictObject({
    is: z.literal("leave"),
    ref,
    by: attributionSchema,
    service: z.enum(["connectPower", "disconnectPower", "insertChocks", "removeChocks"]),
  }),
  /** The engine was left turning, and nobody has yet seen its propeller still. */
  z.strictObject({ is: z.literal("turning"), ref, engine: engineSchema }),
  /** The engine was stopped, and nobody has yet seen its propeller still. */
  z.strictObject({ is: z.literal("unseen"), ref, engine: engineSchema }),
  z.strictObject({
    is: z.literal("drill"),
    ref,
    drill: z.string(),
    engine: engineSchema.nullable(),
    at: ms,
  }),
  z.strictObject({
    is: z.literal("defect"),
    ref,
    id: z.string(),
    words: z.string(),
    engine: engineSchema.nullable(),
    barsStart: z.boolean(),
    by: attributionSchema,
    /** The last deferral. Absent without any. */
    deferred: deferralSchema.optional(),
    /** Sessions that have used up a start of the deferral. Absent without any. */
    startedSince: z.array(z.string()).optional(),
    /** Absent unless it waits for its inspection. */
    mended: mendedSchema.optional(),
  }),
]);
export type Item = z.infer<typeof itemSchema>;

/** An item with its number in the aircraft's record, and the session it came from; null when it came from none. */
export const standingItemSchema = z.strictObject({
  no: ref,
  session: z.string().nullable(),
  item: itemSchema,
});
export type StandingItem = z.infer<typeof standingItemSchema>;

/** One engine's history across sessions: its starter's last uses, its blade count, and when it last ran. */
export const engineHistorySchema = z.strictObject({
  n: engineSchema,
  starter: z.array(usedStarterSchema).max(12),
  blades: z
    .strictObject({ by: attributionSchema, blades: z.number().int(), resistance: z.boolean() })
    .nullable(),
  lastRanAt: ms.nullable(),
});
export type EngineHistory = z.infer<typeof engineHistorySchema>;

/** The last reports of chocks, brakes and ground power. Panels show them with their age; they meet no condition. */
export const lastReportedSchema = z.strictObject({
  chocks: z.strictObject({ in: z.boolean(), by: attributionSchema }).nullable(),
  brakes: z
    .strictObject({ set: z.boolean(), pressure: quantitySchema.nullable(), by: attributionSchema })
    .nullable(),
  groundPower: z
    .strictObject({ is: z.enum(["on", "off"]), volts: quantitySchema.nullable(), by: attributionSchema })
    .nullable(),
});
export type LastReported = z.infer<typeof lastReportedSchema>;

/** Everything one session adds to its aircraft's record, as it stands in that session. */
export const contributionSchema = z.strictObject({
  items: z.array(itemSchema),
  /** Numbers of items from elsewhere that this session has ended. */
  ended: z.array(ref),
  /** Fires from elsewhere, and the words of where they burn that this session knows. Absent without any. */
  located: z.array(z.strictObject({ no: ref, said: fireWordsSchema })).optional(),
  /** Defects from elsewhere that are mended and not inspected, as this session knows. Absent without any. */
  mended: z.array(z.strictObject({ no: ref, mended: mendedSchema })).optional(),
  /** Defects that this session has closed. Absent without any. */
  defectsClosed: z.array(closedDefectSchema).optional(),
  engines: z.array(engineHistorySchema),
  lastReported: lastReportedSchema,
});
export type Contribution = z.infer<typeof contributionSchema>;

/**
 * The part of its aircraft's record that one session is told: items from elsewhere, and its own items that were ended
 * elsewhere.
 */
export const standingSchema = z.strictObject({
  /** Number of the last event of the record that it includes. */
  record: z.number().int().nonnegative(),
  items: z.array(standingItemSchema),
  /** Items of this session that another session or a supervisor ended. */
  ended: z.array(itemSchema),
  /** Own fires of this session, and every word of where they burn. Absent without any. */
  located: z.array(z.strictObject({ ref, said: fireWordsSchema })).optional(),
  engines: z.array(engineHistorySchema),
  lastReported: lastReportedSchema,
});
export type Standing = z.infer<typeof standingSchema>;
