import { found, type Outcome, outside, refused } from "../outcome.ts";
import { type Battery, openCircuitVolts } from "./battery.ts";
import { badRating, type Rating } from "./peukert.ts";
import { busVolts } from "./sag.ts";

/** One start: steady cranking amperes and seconds. */
export interface Crank {
  amps: number;
  seconds: number;
}

/**
 * Returns the ampere-hours that one start takes from the rating: I·t/3600 · (I/Irated)^(k−1), which is Peukert's law
 * for a short draw. Amperes at or above the rated current, 0 to 300 s.
 */
export function startAmpHours(crank: Crank, rating: Rating): Outcome<number> {
  const ratedAmps = rating.ampHours / rating.hours;
  const why =
    badRating(rating) ??
    outside("cranking current", crank.amps, ratedAmps, 5000, "A") ??
    outside("cranking time", crank.seconds, 0.1, 300, "s");
  if (why) return refused(why);
  return found(((crank.amps * crank.seconds) / 3600) * (crank.amps / ratedAmps) ** (rating.exponent - 1));
}

/** Returns the starts until the charge, 0 to 1, would fall below `floor`: ⌊(charge − floor)·C / Ah per start⌋. */
export function startsByCharge(crank: Crank, rating: Rating, charge: number, floor: number): Outcome<number> {
  const why = outside("state of charge", charge, 0, 1) ?? outside("least charge", floor, 0, 1);
  if (why) return refused(why);
  const each = startAmpHours(crank, rating);
  if (!each.ok) return each;
  // The small addend keeps an exact whole number of starts whole after division.
  return found(Math.max(0, Math.floor(((charge - floor) * rating.ampHours) / each.value + 1e-9)));
}

/** The inputs of `startsLeft`. Ohms are those inside the battery at its present temperature, and those of the leads. */
export interface StartsInput {
  battery: Battery;
  rating: Rating;
  crank: Crank;
  charge: number;
  /** Charge below which no start may bring the battery, 0 to 1. */
  floor: number;
  degC: number;
  internalOhm: number;
  cableOhm: number;
  /** Bus volts below which no start may pull the bus. */
  leastVolts: number;
}

/**
 * Returns the starts left before the bus would fall below its least volts while cranking, or the charge below its
 * floor. Each start begins with the lower open-circuit volts that the starts before it left. For nickel-cadmium only
 * the charge falls.
 */
export function startsLeft(input: StartsInput): Outcome<number> {
  const { battery, rating, crank, charge, degC, internalOhm, cableOhm } = input;
  const most = startsByCharge(crank, rating, charge, input.floor);
  if (!most.ok) return most;
  const each = startAmpHours(crank, rating);
  if (!each.ok) return each;
  for (let done = 0; done < most.value; done += 1) {
    const rest = Math.max(0, charge - (done * each.value) / rating.ampHours);
    const openCircuit = openCircuitVolts(battery, rest, degC);
    if (!openCircuit.ok) return openCircuit;
    const source = { openCircuit: openCircuit.value, internalOhm, cableOhm };
    const onNoLoad = busVolts(source, 0);
    if (!onNoLoad.ok) return onNoLoad;
    const volts = busVolts(source, crank.amps);
    // A current that the source cannot give leaves the bus below any limit.
    if (!volts.ok) return found(done);
    if (volts.value < input.leastVolts) return found(done);
  }
  return most;
}
