import { z } from "zod";

/** Units a figure may be read in. A figure keeps the unit it was read in. */
export const UNITS = [
  "V",
  "A",
  "psi",
  "kPa",
  "bar",
  "degC",
  "degF",
  "rpm",
  "inHg",
  "hPa",
  "s",
  "min",
  "h",
  "m",
  "ft",
  "kt",
  "lb",
  "kg",
  "L",
  "USgal",
  "Ah",
  "ohm",
  "percent",
  "count",
  "K",
  "kW",
  "N",
  "m/s",
  "mi",
  "dBA",
  "mm2/s",
  "km/h",
] as const;
export const unitSchema = z.enum(UNITS);
export type Unit = z.infer<typeof unitSchema>;

export const quantitySchema = z.strictObject({ value: z.number().finite(), unit: unitSchema });
export type Quantity = z.infer<typeof quantitySchema>;
