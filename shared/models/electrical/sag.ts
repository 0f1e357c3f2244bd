import { found, type Outcome, outside, refused } from "../outcome.ts";

/** A source and its leads to the bus: volts without load, ohms inside, and ohms of the cable, out and back. */
export interface Source {
  openCircuit: number;
  internalOhm: number;
  cableOhm: number;
}

/**
 * Returns one source equal to batteries side by side: 1/R is the sum of 1/Ri, and each battery's volts count by its
 * share of 1/R.
 */
export function sideBySide(
  batteries: readonly { openCircuit: number; ohm: number }[],
  cableOhm: number,
): Source {
  const conductance = batteries.reduce((sum, b) => sum + 1 / b.ohm, 0);
  const openCircuit = batteries.reduce((sum, b) => sum + b.openCircuit / b.ohm, 0) / conductance;
  return { openCircuit, internalOhm: 1 / conductance, cableOhm };
}

/**
 * Returns the bus volts under a load: V = Voc − I·(Rint + Rcable). Volts, amperes, ohms; 0 to 60 V, 0 to 3000 A, 0 to 1
 * Ω each. Refuses a load above the source's short-circuit current, because no such current can flow.
 */
export function busVolts(source: Source, amps: number): Outcome<number> {
  const why = badSource(source) ?? outside("load", amps, 0, 3000, "A");
  if (why) return refused(why);
  const volts = source.openCircuit - amps * (source.internalOhm + source.cableOhm);
  return volts < 0 ? refused(`${amps} A is more than this source can give`) : found(volts);
}

/**
 * Returns the current that a direct-cranking motor draws: I = (Voc − ke·ω) / (Rint + Rcable + Ra). `backVolts` is ke·ω,
 * 0 at stall; `armatureOhm` is in ohms. Refuses a circuit without resistance, and a motor that turns faster than the
 * source drives it.
 */
export function crankingAmps(source: Source, armatureOhm: number, backVolts: number): Outcome<number> {
  const ohm = source.internalOhm + source.cableOhm + armatureOhm;
  const why =
    badSource(source) ??
    outside("armature resistance", armatureOhm, 0, 1, "ohm") ??
    outside("circuit resistance", ohm, 1e-5, 3, "ohm") ??
    outside("back volts", backVolts, 0, source.openCircuit, "V");
  return why ? refused(why) : found((source.openCircuit - backVolts) / ohm);
}

function badSource({ openCircuit, internalOhm, cableOhm }: Source): string | null {
  return (
    outside("open-circuit volts", openCircuit, 0, 60, "V") ??
    outside("internal resistance", internalOhm, 0, 1, "ohm") ??
    outside("cable resistance", cableOhm, 0, 1, "ohm")
  );
}

/** Returns the internal resistance from the maximum-power current of IEC 60952-1: R = (Voc / 2) / Ipp. From memory. */
export function ohmFromMaximumPower(openCircuit: number, amps: number): Outcome<number> {
  const why =
    outside("open-circuit volts", openCircuit, 0, 60, "V") ??
    outside("maximum-power current", amps, 1, 10_000, "A");
  return why ? refused(why) : found(openCircuit / 2 / amps);
}

/**
 * Returns the internal resistance at a temperature, linear between the rows of the battery's own table `[degC, ohm]`,
 * whose temperatures rise. Refuses a temperature outside the table: resistance grows too fast in the cold to be
 * extrapolated.
 */
export function internalOhmAt(
  table: readonly (readonly [degC: number, ohm: number])[],
  degC: number,
): Outcome<number> {
  const first = table[0];
  const last = table.at(-1);
  if (!first || !last) return refused("a table of resistance needs rows");
  const why = outside("temperature", degC, first[0], last[0], "degC");
  if (why) return refused(why);
  for (let i = 1; i < table.length; i += 1) {
    const [a, ra] = table[i - 1] ?? first;
    const [b, rb] = table[i] ?? last;
    if (b <= a) return refused("a table of resistance rises in temperature");
    if (degC <= b) return found(ra + ((rb - ra) * (degC - a)) / (b - a));
  }
  return found(last[1]);
}
