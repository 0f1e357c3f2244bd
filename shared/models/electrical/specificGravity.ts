import { found, type Outcome, outside, refused } from "../outcome.ts";

/**
 * Two published rules that convert a hydrometer reading to 80 °F. They differ by a fifth, so the caller names one:
 * `fourPointsPer10F` 0.004 per 10 °F (engine-generator service manuals; FAA-H-8083-31A ch. 9); `onePointPer3F` 0.001
 * per 3 °F (US Navy training text).
 */
const RULES = { fourPointsPer10F: 0.004 / 10, onePointPer3F: 0.001 / 3 } as const;
export type GravityRule = keyof typeof RULES;

/**
 * Returns the specific gravity of lead-acid electrolyte at 80 °F from a reading at `degF`. Range: 1.000 to 1.400, −30
 * to 160 °F (the span of the printed tables). Refuses other readings.
 */
export function gravityAt80F(read: number, degF: number, rule: GravityRule): Outcome<number> {
  const why =
    outside("specific gravity", read, 1, 1.4) ?? outside("electrolyte temperature", degF, -30, 160, "degF");
  return why ? refused(why) : found(read + RULES[rule] * (degF - 80));
}

/** A class of charge. It begins at `from` and ends where the next higher class begins. */
export interface ChargeClass {
  name: string;
  from: number;
}

/** Classes from the highest down, and the highest gravity that the table covers. */
export interface ChargeTable {
  top: number;
  classes: readonly ChargeClass[];
}

/** FAA-H-8083-31A ch. 9, aircraft batteries, at 80 °F. From memory. */
export const AIRCRAFT_CHARGE: ChargeTable = {
  top: 1.3,
  classes: [
    { name: "high", from: 1.275 },
    { name: "medium", from: 1.24 },
    { name: "low", from: 1.2 },
  ],
};

/**
 * Automotive type, at 80 °F (engine-generator service manuals): 1.260–1.280 full, 1.230–1.250 three quarters,
 * 1.200–1.220 half, 1.170–1.190 quarter, 1.140–1.160 almost discharged, 1.110–1.130 discharged.
 */
export const AUTOMOTIVE_CHARGE: ChargeTable = {
  top: 1.28,
  classes: [
    { name: "full", from: 1.26 },
    { name: "threeQuarters", from: 1.23 },
    { name: "half", from: 1.2 },
    { name: "quarter", from: 1.17 },
    { name: "almostDischarged", from: 1.14 },
    { name: "discharged", from: 1.11 },
  ],
};

/**
 * Returns the class of charge of a gravity that is already converted to 80 °F. Between two printed classes the lower
 * one holds: a battery that the table does not call full is not full. Refuses a gravity above the table (too much acid,
 * or a misreading) and one below it, which the table does not cover.
 */
export function chargeClass(gravity: number, table: ChargeTable): Outcome<string> {
  const floor = Math.min(...table.classes.map((c) => c.from));
  const why = outside("specific gravity at 80 degF", gravity, floor, table.top);
  if (why) return refused(why);
  const named = table.classes.find((c) => gravity >= c.from);
  return named ? found(named.name) : refused("the table of charge has no class");
}

/**
 * Returns the available cranking power, percent of full, from specific gravity at 80 °F. TM 5-1185 Table IV: 100 % at
 * 1.280, 50 % at 1.220, linear between. Refuses gravities outside those.
 */
export function crankingPower(gravity: number): Outcome<number> {
  const why = outside("specific gravity at 80 degF", gravity, 1.22, 1.28);
  return why ? refused(why) : found(50 + ((gravity - 1.22) / 0.06) * 50);
}
