import { found, type Outcome, outside, refused } from "../outcome.ts";
import { type Battery, openCircuitVolts } from "./battery.ts";
import { badRating, type Rating } from "./peukert.ts";
import { busVolts, type Source, sideBySide } from "./sag.ts";

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

/**
 * Returns the starts until the charge, 0 to 1, would fall below `floor`: ⌊(charge − floor)·C·share / Ah per start⌋.
 * `share` is the part of the rated capacity that the battery gives at its temperature, above 0 and at most 1.
 */
export function startsByCharge(
  crank: Crank,
  rating: Rating,
  { charge, floor, share }: { charge: number; floor: number; share: number },
): Outcome<number> {
  const why =
    outside("state of charge", charge, 0, 1) ??
    outside("least charge", floor, 0, 1) ??
    outside("share of the capacity", share, Number.MIN_VALUE, 1);
  if (why) return refused(why);
  const each = startAmpHours(crank, rating);
  if (!each.ok) return each;
  // The small addend keeps an exact whole number of starts whole after division.
  return found(Math.max(0, Math.floor(((charge - floor) * rating.ampHours * share) / each.value + 1e-9)));
}

/**
 * Returns the part of its rated capacity that a battery gives at a temperature, linear between the rows of its own
 * table `[degC, share]`, whose temperatures rise. Warmer than the table counts as its last row, never as more than the
 * rating; a colder temperature is refused, because nothing is known there.
 */
export function capacityShare(
  rows: readonly (readonly [degC: number, share: number])[],
  degC: number,
): Outcome<number> {
  const first = rows[0];
  const last = rows.at(-1);
  if (!first || !last) return refused("a table of capacity needs rows");
  const why = outside("temperature", degC, first[0], 80, "degC");
  if (why) return refused(why);
  for (let i = 1; i < rows.length; i += 1) {
    const [a, low] = rows[i - 1] ?? first;
    const [b, high] = rows[i] ?? last;
    if (b <= a) return refused("a table of capacity rises in temperature");
    if (degC <= b) return found(Math.min(1, low + ((high - low) * (degC - a)) / (b - a)));
  }
  return found(Math.min(1, last[1]));
}

/** One of the batteries that carry a start together. Ohms are those inside it at its present temperature. */
export interface StartBattery {
  battery: Battery;
  rating: Rating;
  charge: number;
  /** Charge below which no start may bring the battery, 0 to 1. */
  floor: number;
  degC: number;
  internalOhm: number;
  /** The part of its rating that it gives at its temperature. */
  share: number;
}

/** The inputs of `startsLeft`. Amperes are those of all batteries together. */
export interface StartsInput {
  batteries: readonly StartBattery[];
  crank: Crank;
  /** Amperes as the starter breaks away: they pull the bus lowest. */
  breakawayAmps: number;
  /** Ohms of the leads, which carry the whole current. */
  cableOhm: number;
  /** Bus volts below which no start may pull the bus. */
  leastVolts: number;
}

/**
 * Returns the starts left before the bus would fall below its least volts as the starter breaks away, or the charge of
 * a battery below its floor. The batteries are side by side and share the current by their conductance. Each start
 * begins with the lower open-circuit volts that the starts before it left; for nickel-cadmium only the charge falls.
 */
export function startsLeft(input: StartsInput): Outcome<number> {
  const { batteries, crank, breakawayAmps, cableOhm, leastVolts } = input;
  const why = outside("breakaway current", breakawayAmps, crank.amps, 5000, "A");
  if (why) return refused(why);
  const conductance = batteries.reduce((sum, b) => sum + 1 / b.internalOhm, 0);
  let most = Number.POSITIVE_INFINITY;
  const drops: number[] = [];
  for (const b of batteries) {
    const own = { ...crank, amps: crank.amps / (b.internalOhm * conductance) };
    const by = startsByCharge(own, b.rating, b);
    if (!by.ok) return by;
    const each = startAmpHours(own, b.rating);
    if (!each.ok) return each;
    most = Math.min(most, by.value);
    drops.push(each.value / (b.rating.ampHours * b.share));
  }
  if (!Number.isFinite(most)) return refused("a start needs a battery");
  for (let done = 0; done < most; done += 1) {
    const source = sourceAfter(batteries, drops, done, cableOhm);
    if (!source.ok) return source;
    const onNoLoad = busVolts(source.value, 0);
    if (!onNoLoad.ok) return onNoLoad;
    const volts = busVolts(source.value, breakawayAmps);
    // A current that the source cannot give leaves the bus below any limit.
    if (!volts.ok || volts.value < leastVolts) return found(done);
  }
  return found(most);
}

/** Returns the batteries as one source after a number of starts. */
function sourceAfter(
  batteries: readonly StartBattery[],
  drops: readonly number[],
  done: number,
  cableOhm: number,
): Outcome<Source> {
  const cells: { openCircuit: number; ohm: number }[] = [];
  for (const [i, b] of batteries.entries()) {
    const rest = Math.max(0, b.charge - done * (drops[i] ?? 0));
    const openCircuit = openCircuitVolts(b.battery, rest, b.degC);
    if (!openCircuit.ok) return openCircuit;
    cells.push({ openCircuit: openCircuit.value, ohm: b.internalOhm });
  }
  return found(sideBySide(cells, cableOhm));
}
