import { z } from "zod";
import { CONDITION_IDS } from "../protocol/conditions.ts";
import { postSchema, stageSchema } from "../protocol/enums.ts";
import { unitSchema } from "../protocol/quantity.ts";
import { idSchema, line } from "../protocol/text.ts";
import { bladeCountSchema } from "./blades.ts";
import { cardSchema } from "./card.ts";
import { drillSchema } from "./drill.ts";
import { electricalSchema, groundPowerSchema } from "./electrical.ts";
import { factorIn, limitIn, limitSchema, secondsSchema, sourceSchema } from "./limit.ts";
import { measuredSchema } from "./measured.ts";
import { oilSchema } from "./oil.ts";
import { orderSchema } from "./order.ts";
import { primeSchema } from "./prime.ts";
import { rampSchema, windSchema } from "./ramp.ts";
import { runUpSchema } from "./runUp.ts";
import { starterSchema } from "./starter.ts";
import { stoppingSchema } from "./stopping.ts";

const engineNumber = z.number().int().min(1).max(8);

/** An engine position. Stations in metres: x aft of the nose, y positive to starboard of the centre line. */
const enginePositionSchema = z.strictObject({
  n: engineNumber,
  x: z.number().finite(),
  y: z.number().finite(),
  /** Accessories that this engine drives, e.g. generator, hydraulicPump, vacuumPump. */
  accessories: z.array(idSchema).max(12),
  /** Source of the stations. Absent in older types. */
  source: sourceSchema.optional(),
});

/** A gauge that the crew reads, with its bands. Figures between `min` and `normalLow` are usable but not normal. */
const gaugeSchema = z.strictObject({
  id: idSchema,
  name: line(40),
  nameEs: line(60).optional(),
  unit: unitSchema,
  perEngine: z.boolean(),
  /** Physical range of the instrument: a reading outside it is refused as a misreading. */
  scale: z.strictObject({ from: z.number(), to: z.number(), step: z.number().positive() }),
  min: z.number().optional(),
  normalLow: z.number().optional(),
  normalHigh: z.number().optional(),
  max: z.number().optional(),
  source: sourceSchema,
});
export type Gauge = z.infer<typeof gaugeSchema>;

/** A check that one post does before a stage ends: either a figure with its range, or simply found good. */
const checkSchema = z.strictObject({
  id: idSchema,
  words: line(120),
  wordsEs: line(180).optional(),
  stage: stageSchema,
  post: postSchema,
  range: z
    .strictObject({ unit: unitSchema, min: z.number().optional(), max: z.number().optional() })
    .optional(),
  source: sourceSchema,
});
export type Check = z.infer<typeof checkSchema>;

/** Number of readings kept for each engine to work out the time left. Without it no time left is shown. */
const keep = z.number().int().min(5).max(600).optional();

/**
 * The value that one gauge of each engine must reach before more power: a figure, or a rise since the first reading.
 */
const gateSchema = z.union([
  z.strictObject({ gauge: idSchema, atLeast: limitSchema, keep }),
  z.strictObject({ gauge: idSchema, riseOf: limitSchema, keep }),
]);
export type Gate = z.infer<typeof gateSchema>;

/** One step of the idle: its revolutions, and the figure from which it may be set. The first step has none. */
const idleStepSchema = z.strictObject({
  rpm: limitIn(["rpm"], 200, 3000),
  from: gateSchema.optional(),
});
export type IdleStep = z.infer<typeof idleStepSchema>;

const timingSchema = z.strictObject({
  /** Life of a clearance. */
  clearance: secondsSchema,
  /** Time from a request to the supervisor's reminder. */
  request: secondsSchema,
  readBack: secondsSchema,
  /** Time to answer a hold, cut or fire: until the reminder, and until the supervisor's alert. */
  stop: secondsSchema,
  stopEscalate: secondsSchema,
  /** Time to answer requests of power and chocks: until the reminder, and until the supervisor's alert. */
  service: secondsSchema,
  serviceEscalate: secondsSchema,
  guardInPlace: secondsSchema,
  arcClear: secondsSchema,
  brakes: secondsSchema,
  groundPower: secondsSchema,
  /** Time for which a check of the area, gravel, fuelling and spills stays fresh. */
  area: secondsSchema,
  weather: secondsSchema,
  /** Time within which the second person must confirm an override. */
  override: secondsSchema,
  /** An unacknowledged alert sounds again after this (IMO MSC.302(87) 7.3.5: 30 s). */
  resound: secondsSchema,
  /**
   * Silence without a touch: until the panel shows it, until it sounds, and until the hold. A person who was heard
   * since the start became live, or who holds a post in the warm-up, is asked only after `presenceAgain`, with the same
   * steps from there.
   */
  presenceSeen: secondsSchema,
  presenceHeard: secondsSchema,
  presenceHold: secondsSchema,
  presenceAgain: secondsSchema.optional(),
  /** Age from which an instrument's sample is no longer taken or shown as now. Absent: none is taken. */
  instrument: secondsSchema.optional(),
  /** Time within which the second person must confirm that a fire is out. Absent: the first report stays. */
  fireOut: secondsSchema.optional(),
  /** Time within which its sender may take a stop back as a slip. Absent: no stop is taken back. */
  slip: secondsSchema.optional(),
  /**
   * Time for which an engine must stand still, since it last turned or was cranked, before hands may go to its
   * propeller.
   */
  handsAfterStart: secondsSchema.optional(),
  /** Time after which the supervisor may release the hold of a person without a post. Absent: at once. */
  bystanderHold: secondsSchema.optional(),
});

/** An aircraft type: data with sources. A session runs on the exact version that it was planned with. */
export const aircraftTypeSchema = z.strictObject({
  id: idSchema,
  version: z.number().int().min(1),
  name: line(60),
  /** The person responsible for the figures. */
  author: line(80),
  approvedBy: line(80).nullable(),
  note: line(300),
  plan: z.strictObject({
    span: z.number().positive().max(150),
    length: z.number().positive().max(150),
    /** Main wheels' distance aft of the nose. */
    mainGearX: z.number(),
    gearTrack: z.number().positive(),
    /** Ground power receptacle. */
    receptacle: z.strictObject({ x: z.number(), y: z.number() }),
    /** Source of these measures. Absent in older types. */
    source: sourceSchema.optional(),
  }),
  engines: z.array(enginePositionSchema).min(1).max(8),
  propeller: z.strictObject({
    diameter: z.number().positive().max(8),
    blades: z.number().int().min(2).max(6),
    /** Propeller revolutions per crankshaft revolution. */
    gearRatio: z.number().positive().max(1),
    /** Source of these figures. Absent in older types. */
    source: sourceSchema.optional(),
  }),
  defaultOrder: z.array(engineNumber).min(1).max(8),
  orderSource: sourceSchema,
  brakePressure: z.strictObject({ atLeast: limitSchema }),
  groundPower: groundPowerSchema,
  starter: starterSchema,
  prime: primeSchema.optional(),
  oil: oilSchema,
  warmUp: z.array(gateSchema).max(6),
  /** The revolutions of an engine that idles: first, and faster once a gauge has reached its figure. */
  idle: z.array(idleStepSchema).min(2).max(4).optional(),
  gauges: z.array(gaugeSchema).min(1).max(30),
  checks: z.array(checkSchema).max(40),
  conditions: z.array(z.enum(CONDITION_IDS)).min(1).max(64),
  /** Conditions that two people may set aside together. Stops can never be set aside. */
  overridable: z.array(z.enum(CONDITION_IDS)).max(64),
  bladeCount: bladeCountSchema,
  wind: windSchema,
  electrical: electricalSchema.optional(),
  runUp: runUpSchema.optional(),
  order: orderSchema.optional(),
  ramp: rampSchema.optional(),
  drills: z.array(drillSchema).max(30),
  card: cardSchema.optional(),
  stopping: stoppingSchema.optional(),
  /** Absent: a start is not measured, and nothing is pointed out. */
  measured: measuredSchema.optional(),
  requiredPosts: z.array(postSchema).min(1).max(8),
  timing: timingSchema,
  /** The last share of a report's fresh time, in which it is asked for again before a clearance. Absent: `RENEWED_IN`. */
  renewedIn: factorIn(0.1, 1).optional(),
});
export type AircraftType = z.infer<typeof aircraftTypeSchema>;

/** A time that every type gives. */
export type GivenTime = {
  [K in keyof AircraftType["timing"]]-?: undefined extends AircraftType["timing"][K] ? never : K;
}[keyof AircraftType["timing"]];
