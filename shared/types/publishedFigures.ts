import type { Unit } from "../protocol/quantity.ts";

/** One kind of figure as documents print it for aircraft of this size. None of them is a limit of any type here. */
export interface PublishedFigure {
  /** Its place in a type: names joined by dots, `*` for any item of a list, `id=x` for the item of that id. */
  at: string;
  unit: Unit;
  lowest: number;
  highest: number;
  source: string;
}

const C46 = "AAF Manual 50-16, Pilot Training Manual for the C-46";
const AIRLINE = "US airline operations regulations of 15 Jan 1946";
const MAGNETO = "FAA-H-8083-32 and makers' manuals";
const VOLTS = "MIL-STD-704F (from memory); regional turboprop manual, 2015";
const LADDERS = "Service Instruction 1505; AC 61-23 sec. 2-17; TM 55-1510-215-10";
const OIL = `${AIRLINE}, 3033-8; AC 61-21`;

const marks = (
  id: string,
  unit: Unit,
  of: Partial<Record<"min" | "normalLow" | "normalHigh" | "max", readonly [number, number]>>,
  source: string,
): PublishedFigure[] =>
  Object.entries(of).map(([mark, [lowest, highest]]) => ({
    at: `gauges.id=${id}.${mark}`,
    unit,
    lowest,
    highest,
    source,
  }));

/** Figures printed in the documents that the project read, each with the range that they span. */
export const PUBLISHED: readonly PublishedFigure[] = [
  { at: "starter.ladder.*.onMax", unit: "s", lowest: 5, highest: 60, source: LADDERS },
  { at: "starter.colder.*.ladder.*.onMax", unit: "s", lowest: 5, highest: 60, source: LADDERS },
  { at: "starter.ladder.*.rest", unit: "s", lowest: 20, highest: 1800, source: LADDERS },
  { at: "starter.colder.*.ladder.*.rest", unit: "s", lowest: 20, highest: 1800, source: LADDERS },
  { at: "oil.firstIndication.within", unit: "s", lowest: 5, highest: 60, source: OIL },
  { at: "oil.colder.*.firstIndication.within", unit: "s", lowest: 5, highest: 60, source: OIL },
  { at: "oil.normal.within", unit: "s", lowest: 10, highest: 60, source: OIL },
  { at: "oil.colder.*.normal.within", unit: "s", lowest: 10, highest: 60, source: OIL },
  { at: "oil.normal.atLeast", unit: "psi", lowest: 25, highest: 80, source: `${C46}; ${AIRLINE}, 3039` },
  { at: "groundPower.steadyMin", unit: "V", lowest: 22, highest: 26, source: VOLTS },
  { at: "groundPower.steadyMax", unit: "V", lowest: 28.5, highest: 31.5, source: VOLTS },
  { at: "groundPower.starting.min", unit: "V", lowest: 12, highest: 22, source: VOLTS },
  { at: "groundPower.starting.max", unit: "V", lowest: 28.5, highest: 31.5, source: VOLTS },
  {
    at: "warmUp.gauge=oilTemp.atLeast",
    unit: "degC",
    lowest: 40,
    highest: 50,
    source: `${AIRLINE}, 3034; TM 1-1500-204-23-3`,
  },
  {
    at: "warmUp.gauge=headTemp.atLeast",
    unit: "degC",
    lowest: 120,
    highest: 121.2,
    source: `${C46}; ${AIRLINE}, 3034`,
  },
  { at: "runUp.magneto.maxDrop", unit: "rpm", lowest: 25, highest: 175, source: MAGNETO },
  { at: "runUp.magneto.maxDifference", unit: "rpm", lowest: 50, highest: 50, source: MAGNETO },
  { at: "runUp.feather.maxDrop", unit: "rpm", lowest: 100, highest: 100, source: `${AIRLINE}, 3034` },
  {
    at: "runUp.manifold.spread",
    unit: "inHg",
    lowest: 1,
    highest: 1,
    source: "TM 1-1500-204-23-1 table 7-2 step 10",
  },
  ...marks("oilPressure", "psi", { min: [25, 60], max: [65, 100] }, `${C46}; ${AIRLINE}, 3039`),
  ...marks("oilTemp", "degC", { min: [40, 40], max: [93, 93] }, C46),
  ...marks("headTemp", "degC", { min: [120, 121.2], max: [232, 260] }, `${C46}; ${AIRLINE}, 3034`),
  ...marks("fuelPressure", "psi", { min: [5, 14], max: [6, 19] }, `${C46}; ${AIRLINE}, 3039`),
  ...marks("suction", "inHg", { min: [3.5, 4.3], max: [4.5, 4.8] }, `${C46}; ${AIRLINE}, 3039`),
  ...marks("hydraulic", "psi", { normalLow: [1100, 1100], max: [1500, 1500] }, C46),
  ...marks("manifold", "inHg", { max: [52, 52] }, C46),
  ...marks("rpm", "rpm", { max: [2700, 2700] }, C46),
  { at: "wind.gustMax", unit: "kt", lowest: 40, highest: 40, source: "US weather service practice" },
  {
    at: "ramp.lightning.stopWithin",
    unit: "mi",
    lowest: 5,
    highest: 6,
    source: "US weather service practice; 30/30 rule",
  },
];
