import { found, type Outcome, outside, refused } from "../outcome.ts";
import { WIRE_TABLE, type WireRating, type WireRow } from "./wireTable.ts";

/** A run of wire: feet of conductor, out and back (a ground wire counts), and its steady amperes. */
export interface Run {
  feet: number;
  amps: number;
}

const badRun = ({ feet, amps }: Run): string | null =>
  outside("run", feet, 0, 2000, "ft") ?? outside("current", amps, 0, 3000, "A");

function rowOf(size: string): Outcome<WireRow> {
  const row = WIRE_TABLE.find((r) => r.size === size);
  return row ? found(row) : refused(`no wire of size ${size} in AC 43.13-1B Table 11-9`);
}

/**
 * Returns the volts lost in a run at 20 °C: VD = (Ω/ft)·ft·A (AC 43.13-1B para 11-66 and Tables 11-7, 11-8). `parallel`
 * equal conductors share the current. Range: 0 to 2000 ft, 0 to 3000 A, 1 to 8 conductors.
 */
export function wireDrop(size: string, run: Run, parallel = 1): Outcome<number> {
  const row = rowOf(size);
  if (!row.ok) return row;
  const why = badRun(run) ?? outside("conductors in parallel", parallel, 1, 8);
  return why ? refused(why) : found(((row.value.ohmPer1000Ft / 1000) * run.feet * run.amps) / parallel);
}

/**
 * Returns the thinnest wire of Table 11-9 that carries the current continuously at its rating and loses at most
 * `mayLose` volts over the run, conductor at 20 °C. Refuses when even 4/0 is too thin.
 */
export function chooseWire(run: Run, mayLose: number, rating: WireRating): Outcome<string> {
  const why = badRun(run) ?? outside("allowable drop", mayLose, 0.01, 60, "V");
  if (why) return refused(why);
  const row = WIRE_TABLE.find(
    (r) => r.amps[rating] >= run.amps && (r.ohmPer1000Ft / 1000) * run.feet * run.amps <= mayLose,
  );
  return row ? found(row.size) : refused(`no wire of the table carries ${run.amps} A over ${run.feet} ft so`);
}

export type Metal = "copper" | "aluminium";

/** Inferred temperature of zero resistance, in °C below zero: AC 43.13-1B para 11-67. */
const ZERO_RESISTANCE: Record<Metal, number> = { copper: 234.5, aluminium: 238.1 };

/**
 * Returns the resistance at a conductor temperature over that at 20 °C: (k + T) / (k + 20), k = 234.5 copper, 238.1
 * aluminium. Range: −55 to 260 °C.
 */
export function heatedResistance(metal: Metal, degC: number): Outcome<number> {
  const k = ZERO_RESISTANCE[metal];
  const why = outside("conductor temperature", degC, -55, 260, "degC");
  return why ? refused(why) : found((k + degC) / (k + 20));
}

/**
 * Returns the feet that a run may be long at a conductor temperature above 20 °C: L2 = 254.5·L1 / (234.5 + T2); for
 * aluminium 258.1 and 238.1.
 */
export function deratedLength(metal: Metal, feetAt20: number, degC: number): Outcome<number> {
  const ratio = heatedResistance(metal, degC);
  if (!ratio.ok) return ratio;
  const why =
    outside("run", feetAt20, 0, 2000, "ft") ?? outside("conductor temperature", degC, 20, 260, "degC");
  return why ? refused(why) : found(feetAt20 / ratio.value);
}

/**
 * Returns the conductor temperature, °C: T2 = T1 + (TR − T1)·√(I2 / Imax), with ambient T1, insulation rating TR, and a
 * current I2 of at most Imax (AC 43.13-1B para 11-67; the root form is from memory).
 */
export function conductorTemperature(
  ambient: number,
  rating: number,
  amps: number,
  most: number,
): Outcome<number> {
  const why =
    outside("ambient temperature", ambient, -55, rating, "degC") ??
    outside("insulation rating", rating, 60, 260, "degC") ??
    outside("greatest current", most, 0.1, 3000, "A") ??
    outside("current", amps, 0, most, "A");
  return why ? refused(why) : found(ambient + (rating - ambient) * Math.sqrt(amps / most));
}
