import { z } from "zod";
import { isLabel } from "./equipmentKinds.ts";
import { line } from "./text.ts";

/** The last day of something, UTC. */
export const daySchema = z.iso.date("must be a day such as 2027-03-31");

export const labelSchema = z.string().refine(isLabel, "must be 1 to 16 capital letters, digits and hyphens");

/** Fields of every piece of equipment. The label is its id. */
const common = {
  id: labelSchema,
  name: line(60),
  /** The last day on which its test or inspection holds; null when none is kept. */
  testedUntil: daySchema.nullable(),
};

const amps = z.number().positive().max(10_000);

/** The facts of each kind. */
export const EQUIPMENT_SHAPES = {
  cart: z.strictObject({
    ...common,
    kind: z.literal("cart"),
    volts: z.number().min(1).max(60),
    continuousA: amps,
    peakA: amps,
    cable: z.strictObject({
      /** A size of AC 43.13-1B Table 11-9. */
      size: line(4),
      /** From the cart to the plug, metres. The current flows out and back. */
      metres: z.number().min(0.5).max(90),
      /** Equal conductors side by side. */
      parallel: z.number().int().min(1).max(8),
    }),
    /** Ohms inside the cart; null when nobody knows. */
    internalOhm: z.number().min(0).max(0.1).nullable(),
  }),
  extinguisher: z.strictObject({
    ...common,
    kind: z.literal("extinguisher"),
    agent: line(40),
    /** Kilograms of agent. */
    chargeKg: z.number().positive().max(500),
    weighedUntil: daySchema.nullable(),
  }),
  chocks: z.strictObject({ ...common, kind: z.literal("chocks") }),
  towBar: z.strictObject({ ...common, kind: z.literal("towBar") }),
  headset: z.strictObject({ ...common, kind: z.literal("headset") }),
} as const;

/** One piece of equipment, with the facts of the day on which it is recorded. */
export const equipmentSchema = z.discriminatedUnion("kind", [
  EQUIPMENT_SHAPES.cart,
  EQUIPMENT_SHAPES.extinguisher,
  EQUIPMENT_SHAPES.chocks,
  EQUIPMENT_SHAPES.towBar,
  EQUIPMENT_SHAPES.headset,
]);
export type Equipment = z.infer<typeof equipmentSchema>;
export type Cart = Extract<Equipment, { kind: "cart" }>;
