import type { Unit } from "../protocol/quantity.ts";

/** The side on which a figure of an engine becomes worse; `either` where both are worth a look. */
export type WorseSide = "high" | "low" | "either";

/** One figure that is kept of each start of an engine. */
export interface FigureDefinition {
  /** Null where it keeps the unit in which it was read. */
  unit: Unit | null;
  worse: WorseSide;
  /** True for a figure that belongs to the starter fitted, so that another starter begins it anew. */
  ofStarter?: true;
  /**
   * True for a figure whose charts have limits and signals. Others follow the weather, the plan or a count, so that
   * limits would say nothing of the engine.
   */
  judged?: true;
  /** How it comes from the record, for the files that leave the house. */
  source: string;
}

/** The figures kept of each start of an engine, in the order in which tables and files list them. */
export const HISTORY_FIGURES = {
  starterS: {
    unit: "s",
    worse: "high",
    judged: true,
    ofStarter: true,
    source: "starter engaged to released, by the record",
  },
  starterMeasuredS: {
    unit: "s",
    worse: "high",
    source: "time that an instrument's bus volts stayed below the type's figure around the engagement",
  },
  restS: {
    unit: "s",
    worse: "either",
    source: "end of the engagement before to this one, since the engine last ran",
  },
  attempts: {
    unit: "count",
    worse: "high",
    source: "engagements since the engine last ran, this one included",
  },
  blades: { unit: "count", worse: "either", source: "blades counted before this engagement" },
  prime: { unit: null, worse: "either", source: "the type's prime for the temperature and the time stood" },
  oilFirstS: {
    unit: "s",
    worse: "high",
    judged: true,
    source: "catch to the reading that showed the first oil pressure",
  },
  oilFirstMeasuredS: {
    unit: "s",
    worse: "high",
    source: "reported catch to the first oil pressure that an instrument read",
  },
  oilNormalS: {
    unit: "s",
    worse: "high",
    judged: true,
    source: "catch to the reading that showed normal oil pressure",
  },
  idleOil: { unit: null, worse: "low", source: "the last oil pressure read outside the run-up" },
  idleOilReference: {
    unit: null,
    worse: "low",
    judged: true,
    source:
      "idle oil pressure x viscosity at the warm-up's least oil temperature / viscosity as read (ASTM D341; pressure goes with viscosity below the relief valve)",
  },
  voltsExpected: { unit: "V", worse: "either", source: "lowest volts worked out as the starter was engaged" },
  voltsSeen: { unit: "V", worse: "low", source: "lowest volts read while it was engaged" },
  voltsMeasured: { unit: "V", worse: "low", source: "lowest volts that an instrument read meanwhile" },
  voltsDifference: {
    unit: "V",
    worse: "low",
    judged: true,
    source: "lowest volts read minus those worked out",
  },
  fuelPressure: {
    unit: null,
    worse: "either",
    judged: true,
    source: "the last fuel pressure read outside the run-up",
  },
  warmUpMin: {
    unit: "min",
    worse: "either",
    judged: true,
    source: "catch to the reading that met the last of the engine's gates",
  },
  airC: {
    unit: "degC",
    worse: "either",
    source: "the air's temperature recorded last before the engagement",
  },
  magnetoLeft: {
    unit: "rpm",
    worse: "high",
    judged: true,
    source: "speed on both magnetos minus that on the left alone",
  },
  magnetoRight: {
    unit: "rpm",
    worse: "high",
    judged: true,
    source: "speed on both magnetos minus that on the right alone",
  },
  featherDrop: {
    unit: "rpm",
    worse: "either",
    judged: true,
    source: "speed before feathering minus the lowest",
  },
  boost: { unit: "inHg", worse: "either", source: "manifold pressure at the run-up's power check" },
} as const satisfies Record<string, FigureDefinition>;

export type HistoryFigure = keyof typeof HISTORY_FIGURES;

export const HISTORY_FIGURE_IDS = Object.keys(HISTORY_FIGURES) as HistoryFigure[];

/** Returns a figure's definition, without its literal types. */
export function definitionOf(figure: HistoryFigure): FigureDefinition {
  return HISTORY_FIGURES[figure];
}
