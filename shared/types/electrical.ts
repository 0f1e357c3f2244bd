import { z } from "zod";
import { idSchema, line } from "../protocol/text.ts";
import { factorIn, limitIn, limitSchema, secondsSchema, sourceSchema } from "./limit.ts";

const volts = (least: number, most: number) => limitIn(["V"], least, most);

/** Specific gravity of the charged and the discharged cell at 80 degF. */
const leadAcid = z.strictObject({
  chemistry: z.literal("leadAcid"),
  cells: z.number().int().min(1).max(30),
  full: z.number().min(1.1).max(1.4),
  empty: z.number().min(1).max(1.3),
  voltsPerKelvin: z.number().min(0).max(0.01),
  source: sourceSchema,
});

const nickelCadmium = z.strictObject({
  chemistry: z.literal("nickelCadmium"),
  cells: z.number().int().min(1).max(30),
  cellVolts: z.number().min(1).max(1.6),
  source: sourceSchema,
});

/** One of the batteries that carry a start together. */
const batterySchema = z.strictObject({
  id: idSchema,
  name: line(40),
  cell: z.discriminatedUnion("chemistry", [leadAcid, nickelCadmium]),
  capacity: limitIn(["Ah"], 0.1, 1000),
  /** Hours over which the capacity is rated. */
  ratedOver: limitIn(["h"], 0.1, 100),
  /** Peukert's exponent, 1 for an ideal battery. */
  exponent: factorIn(1, 1.6),
  /** Charge below which no start may bring it. */
  floor: limitIn(["percent"], 0, 100),
  /** Ohms inside, by rising temperature: [degC, ohm]. */
  ohms: z.strictObject({
    rows: z
      .array(z.tuple([z.number().min(-60).max(80), z.number().positive().max(1)]))
      .min(2)
      .max(20),
    source: sourceSchema,
  }),
  /** The part of its capacity that it gives, by rising temperature: [degC, 0 to 1]. Without it no starts are counted. */
  capacityAt: z
    .strictObject({
      rows: z
        .array(z.tuple([z.number().min(-60).max(80), z.number().positive().max(1)]))
        .min(2)
        .max(20),
      source: sourceSchema,
    })
    .optional(),
  /** The check that reads its rested volts. They give the charge of a lead-acid battery. */
  check: idSchema.optional(),
  /**
   * The checks that read a hydrometer and its electrolyte's temperature, and the rule that converts the reading to 80
   * degF.
   */
  gravity: z
    .strictObject({
      check: idSchema,
      temperature: idSchema,
      rule: z.enum(["fourPointsPer10F", "onePointPer3F"]),
      source: sourceSchema,
    })
    .optional(),
});
export type BatteryData = z.infer<typeof batterySchema>;

/** The starter motor, its sources and its cable. */
export const electricalSchema = z.strictObject({
  starter: z.strictObject({
    /** Current as the motor breaks away, and once it turns. */
    breakaway: limitIn(["A"], 1, 3000),
    steady: limitIn(["A"], 1, 3000),
    /** Time for which one start turns the motor. */
    time: secondsSchema,
  }),
  /** Least bus volts while cranking. Below them the engine can kick back and contacts burn. */
  leastVolts: volts(1, 60),
  /** Difference between the volts worked out and the volts seen above which a person should investigate. */
  surprise: volts(0.1, 20).optional(),
  batteries: z.array(batterySchema).min(1).max(4).optional(),
  /** The rating of each engine's generator, the gauge of its load, and the load that it may carry all the time. */
  generator: z
    .strictObject({
      gauge: idSchema,
      rating: limitIn(["A"], 1, 2000),
      most: limitIn(["percent"], 1, 100).optional(),
    })
    .optional(),
  /** Leads from the batteries to the bus, out and back. */
  leadOhm: limitIn(["ohm"], 0, 0.1).optional(),
  cart: z
    .strictObject({
      /** AWG size of AC 43.13-1B Table 11-9. */
      size: line(4),
      /** Length of conductor, out and back. */
      length: limitIn(["ft", "m"], 1, 600),
      /** Equal conductors side by side. */
      parallel: z.number().int().min(1).max(8),
      source: sourceSchema,
      /** Ohms inside the cart. Without it the cart counts as having none. */
      internalOhm: limitIn(["ohm"], 0, 0.1).optional(),
      /** Volts that the cable may lose while cranking. */
      mostDrop: volts(0.1, 20).optional(),
    })
    .optional(),
});
export type ElectricalRules = z.infer<typeof electricalSchema>;

/** Milliseconds since the volts left the steady band, and the volts allowed then. */
const curve = z
  .array(z.tuple([z.number().min(0).max(60_000), z.number().min(0).max(100)]))
  .min(1)
  .max(20);

/** Ground power at the bus: the steady band, the band while an engine is cranked, and how far a transient may go. */
export const groundPowerSchema = z.strictObject({
  steadyMin: limitSchema,
  steadyMax: limitSchema,
  starting: z.strictObject({ min: limitSchema, max: limitSchema }).optional(),
  transients: z
    .strictObject({ over: curve, under: curve, longestGap: secondsSchema, source: sourceSchema })
    .optional(),
});
export type GroundPowerRules = z.infer<typeof groundPowerSchema>;
