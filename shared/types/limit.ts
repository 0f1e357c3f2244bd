import { z } from "zod";
import { type Unit, unitSchema } from "../protocol/quantity.ts";
import { line } from "../protocol/text.ts";

/**
 * The trust a figure deserves. Nothing here replaces the type's approved manual. `anotherType`: printed, but about an
 * aircraft of another type, so only an illustration.
 */
export const BASES = ["published", "commonPractice", "fromMemory", "anotherType", "invented"] as const;
export const basisSchema = z.enum(BASES);
export type Basis = (typeof BASES)[number];

export const sourceSchema = z.strictObject({
  basis: basisSchema,
  /** The manual or other document, or the words of a person. */
  text: line(300),
  /** Page, paragraph or figure of the document. */
  page: line(40).optional(),
  /** The person who entered the figure. The server writes it. */
  by: line(80).optional(),
});
export type Source = z.infer<typeof sourceSchema>;

/** One figure with its unit and its source. */
export const limitSchema = z.strictObject({
  value: z.number().finite(),
  unit: unitSchema,
  source: sourceSchema,
});
export type Limit = z.infer<typeof limitSchema>;

/** A limit in seconds. */
export const secondsSchema = z.strictObject({
  value: z.number().positive().max(86_400),
  unit: z.literal("s"),
  source: sourceSchema,
});

/** Returns the schema of a limit in one of the given units and within a physical range, both ends inside. */
export function limitIn<U extends Unit>(units: readonly [U, ...U[]], least: number, most: number) {
  return z.strictObject({
    value: z.number().min(least).max(most),
    unit: z.enum(units),
    source: sourceSchema,
  });
}

/** An outside temperature. */
export const temperatureSchema = limitIn(["degC", "degF"], -80, 150);

/** Returns the schema of a number without a unit, such as an exponent or a share. */
export function factorIn(least: number, most: number) {
  return z.strictObject({ value: z.number().min(least).max(most), source: sourceSchema });
}
