import { found, type Outcome, outside, refused } from "../outcome.ts";

/**
 * A battery's open-circuit model, as data of the type. Lead-acid: a cell at rest shows specific gravity + 0.84 V at 25
 * °C (common engineering rule, from memory), and gravity is linear in charge from `empty` to `full`. Nickel-cadmium:
 * the electrolyte does not change and the volts stay nearly flat (FAA-H-8083-31A ch. 9, from memory).
 */
export type Battery = LeadAcid | NickelCadmium;

export interface LeadAcid {
  chemistry: "leadAcid";
  cells: number;
  /** Gravity at 80 °F, charged and discharged. */
  full: number;
  empty: number;
  /** Volts per cell per kelvin; about +0.0002 near full charge, from memory. */
  voltsPerKelvin: number;
}

export interface NickelCadmium {
  chemistry: "nickelCadmium";
  cells: number;
  /** Open-circuit volts per cell: 1.27 to 1.30, from memory. */
  cellVolts: number;
}

const CELL_OFFSET = 0.84;
/**
 * Gas that stays on the plates after charging raises the reading. More gravity than this above `full` means that the
 * battery has not rested.
 */
const SURFACE_CHARGE = 0.02;

/** Returns the open-circuit volts at a state of charge of 0 to 1 and a temperature of −40 to 60 °C. */
export function openCircuitVolts(battery: Battery, charge: number, degC: number): Outcome<number> {
  const why =
    badCells(battery) ??
    outside("state of charge", charge, 0, 1) ??
    outside("temperature", degC, -40, 60, "degC");
  if (why) return refused(why);
  if (battery.chemistry === "nickelCadmium") return found(battery.cells * battery.cellVolts);
  const gravity = battery.empty + charge * (battery.full - battery.empty);
  return found(battery.cells * (gravity + CELL_OFFSET + battery.voltsPerKelvin * (degC - 25)));
}

/**
 * Returns the state of charge, 0 to 1, from the volts of a rested battery without load. Below `empty` it is 0; above
 * `full`, within surface charge, it is 1. Refuses nickel-cadmium (its volts do not show the charge), reversed leads,
 * and volts that no rested battery with this many cells can show: a dead cell, a wrong count, or a charger that is
 * still on.
 */
export function chargeFromVolts(battery: Battery, volts: number, degC: number): Outcome<number> {
  if (battery.chemistry === "nickelCadmium") {
    return refused("open-circuit volts do not tell a nickel-cadmium battery's charge: count ampere-hours");
  }
  const why = badCells(battery) ?? outside("temperature", degC, -40, 60, "degC");
  if (why) return refused(why);
  if (volts < 0) return refused(`${volts} V: the leads are reversed`);
  const gravity = volts / battery.cells - CELL_OFFSET - battery.voltsPerKelvin * (degC - 25);
  const implausible = outside("specific gravity by the volts", gravity, 1, battery.full + SURFACE_CHARGE);
  if (implausible) return refused(`${implausible}: not a rested battery of ${battery.cells} sound cells`);
  return found(Math.min(1, Math.max(0, (gravity - battery.empty) / (battery.full - battery.empty))));
}

/**
 * Returns the state of charge, 0 to 1, from specific gravity at 80 °F: linear from `empty` to `full`, as common
 * practice assumes for a lead-acid cell. Refuses nickel-cadmium, whose electrolyte shows nothing, and gravities of no
 * acid or of too much.
 */
export function chargeFromGravity(battery: Battery, at80F: number): Outcome<number> {
  if (battery.chemistry === "nickelCadmium")
    return refused("the electrolyte does not tell a nickel-cadmium battery's charge: count ampere-hours");
  const why =
    badCells(battery) ?? outside("specific gravity at 80 degF", at80F, 1, battery.full + SURFACE_CHARGE);
  if (why) return refused(why);
  return found(Math.min(1, Math.max(0, (at80F - battery.empty) / (battery.full - battery.empty))));
}

function badCells(battery: Battery): string | null {
  const why = outside("cells", battery.cells, 1, 30);
  if (why || battery.chemistry === "nickelCadmium") return why;
  return battery.full > battery.empty ? null : "a charged battery's gravity is above a discharged one's";
}

/**
 * Returns a part of a whole capacity, 0 and up, e.g. available over full (charge) or full over rated (health). Both are
 * in the same unit.
 */
export function capacityRatio(part: number, whole: number): Outcome<number> {
  const why =
    outside("capacity", part, 0, 1000, "Ah") ??
    outside("whole capacity", whole, Number.MIN_VALUE, 1000, "Ah");
  return why ? refused(why) : found(part / whole);
}

/**
 * Returns the volts at which a battery under its rated discharge counts as empty: cells × volts per cell, which is data
 * of its maker or standard (lead-acid 1.67 IEC, 1.5 military; nickel-cadmium 1.0, from memory). Range: 0.8 to 2 V per
 * cell.
 */
export function emptyVolts(cells: number, voltsPerCell: number): Outcome<number> {
  const why = outside("cells", cells, 1, 30) ?? outside("volts per cell", voltsPerCell, 0.8, 2, "V");
  return why ? refused(why) : found(cells * voltsPerCell);
}
