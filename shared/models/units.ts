import type { Quantity, Unit } from "../protocol/quantity.ts";
import { found, type Outcome, refused } from "./outcome.ts";

/** One knot in metres per second: the international nautical mile, 1852 m, per hour (exact). */
export const KNOT = 1852 / 3600;

const POUND_KG = 0.45359237;
const FOOT_M = 0.3048;
const INCH_M = 0.0254;
/** International (statute) mile. */
const MILE_M = 1609.344;
const STANDARD_GRAVITY = 9.80665;
const PSI_PA = (POUND_KG * STANDARD_GRAVITY) / INCH_M ** 2;
/** Conventional inch of mercury: 13 595.1 kg/m³ at standard gravity. */
const INHG_PA = 13_595.1 * STANDARD_GRAVITY * INCH_M;
const US_GALLON_L = 231 * (INCH_M * 10) ** 3;

interface Scale {
  kind: string;
  /** Value in the kind's base unit = (value + shift) × factor. */
  factor: number;
  shift: number;
  /** Least possible value, in this unit. */
  least: number;
}

const scale = (kind: string, factor = 1, shift = 0, least = Number.NEGATIVE_INFINITY): Scale => ({
  kind,
  factor,
  shift,
  least,
});

/** Base units: Pa, K, m, m/s, kg, L, s. A unit that is alone in its kind converts to itself only. */
const SCALES: Record<Unit, Scale> = {
  V: scale("volts"),
  A: scale("amperes"),
  psi: scale("pressure", PSI_PA),
  kPa: scale("pressure", 1000),
  bar: scale("pressure", 100_000),
  inHg: scale("pressure", INHG_PA),
  hPa: scale("pressure", 100),
  degC: scale("temperature", 1, 273.15, -273.15),
  degF: scale("temperature", 5 / 9, 459.67, -459.67),
  rpm: scale("speed of rotation"),
  s: scale("time"),
  min: scale("time", 60),
  h: scale("time", 3600),
  m: scale("length"),
  ft: scale("length", FOOT_M),
  kt: scale("speed", KNOT),
  lb: scale("mass", POUND_KG),
  kg: scale("mass"),
  L: scale("volume"),
  USgal: scale("volume", US_GALLON_L),
  Ah: scale("charge"),
  ohm: scale("resistance"),
  percent: scale("percent"),
  count: scale("count"),
  // A difference of temperature has no zero to shift, so it is a kind of its own.
  K: scale("temperature difference"),
  kW: scale("power"),
  N: scale("force"),
  mi: scale("length", MILE_M),
  dBA: scale("sound level"),
  "mm2/s": scale("viscosity"),
  "m/s": scale("speed"),
  "km/h": scale("speed", 1 / 3.6),
};

/** Returns whether this version knows the unit: a record may come from an older or newer version. */
export function isUnit(unit: string): unit is Unit {
  return Object.hasOwn(SCALES, unit);
}

/**
 * Returns the same quantity in another unit; its own unit leaves the figure unchanged. Definitions: NIST SP 811
 * appendix B (psi, inHg, ft, lb, US gallon by their exact definitions). Refuses a unit of another kind, a figure that
 * is not finite, and a temperature below absolute zero. Gauge pressures may be negative.
 */
export function convert(from: Quantity, unit: Unit): Outcome<Quantity> {
  const a = SCALES[from.unit];
  const b = SCALES[unit];
  if (!Number.isFinite(from.value)) return refused(`${from.value} ${from.unit} is not a figure`);
  if (a.kind !== b.kind) return refused(`${from.unit} is ${a.kind}, ${unit} is ${b.kind}`);
  if (from.value < a.least) return refused(`${from.value} ${from.unit} is below absolute zero`);
  if (from.unit === unit) return found({ value: from.value, unit });
  if (a.kind === "temperature") return found({ value: otherDegrees(from.value, unit), unit });
  return found({ value: (from.value * a.factor) / b.factor, unit });
}

/** Converts Celsius and Fahrenheit directly, not by way of kelvins, so that 104 °F is 40 °C to the last digit. */
function otherDegrees(value: number, unit: Unit): number {
  return unit === "degF" ? (value * 9) / 5 + 32 : ((value - 32) * 5) / 9;
}

/**
 * Two figures that differ by less than this part of the limit are equal: the difference is rounding of the conversion.
 */
const SAME = 1e-9;

/**
 * Returns true if the reading is at or above the limit, compared in the limit's own unit. Sources print one limit as
 * both −6 and −7 °C, so the unit in which it was set decides.
 */
export function atLeast(reading: Quantity, limit: Quantity): Outcome<boolean> {
  const read = convert(reading, limit.unit);
  if (!read.ok) return read;
  return found(reaches(read.value.value, limit.value));
}

/** Returns true if a figure is at or above another one in the same unit. */
export function reaches(value: number, limit: number): boolean {
  return value >= limit - SAME * Math.max(1, Math.abs(limit));
}

/**
 * Returns the value of a quantity in another unit; NaN when it cannot be converted, because every comparison with NaN
 * fails.
 */
export function inUnit(quantity: Quantity, unit: Unit): number {
  const got = convert(quantity, unit);
  return got.ok ? got.value.value : Number.NaN;
}
