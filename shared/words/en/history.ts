import type { HistoryFigure } from "../../history/figures.ts";

/** The figures of an engine's history, and what a note says of each. */
export const history = {
  figures: {
    starterS: "Starter to catch",
    starterMeasuredS: "Starter, measured",
    restS: "Starter's rest before",
    attempts: "Attempt",
    blades: "Blades counted",
    prime: "Prime",
    oilFirstS: "Time to first oil pressure",
    oilFirstMeasuredS: "First oil pressure, measured",
    oilNormalS: "Time to normal oil pressure",
    idleOil: "Idle oil pressure",
    idleOilReference: "Idle oil pressure, same oil thickness",
    voltsExpected: "Lowest volts worked out",
    voltsSeen: "Lowest volts read",
    voltsMeasured: "Lowest volts, measured",
    voltsDifference: "Volts read minus worked out",
    fuelPressure: "Fuel pressure at idle",
    warmUpMin: "Warm-up",
    airC: "Air temperature",
    magnetoLeft: "Magneto drop, left",
    magnetoRight: "Magneto drop, right",
    featherDrop: "Drop on feathering",
    boost: "Manifold pressure at the power check",
  } satisfies Record<HistoryFigure, string>,
  /** The engine's behaviour, after its number and before "than in its 20 starts". */
  does: {
    starterS: { high: "needs its starter longer", low: "catches sooner" },
    oilFirstS: { high: "takes longer to first oil pressure", low: "takes less time to first oil pressure" },
    oilNormalS: { high: "takes longer to oil pressure", low: "takes less time to oil pressure" },
    idleOilReference: {
      high: "idles with more oil pressure, at the same oil thickness,",
      low: "idles with less oil pressure, at the same oil thickness,",
    },
    voltsDifference: {
      high: "keeps the volts higher against those worked out",
      low: "pulls the volts lower against those worked out",
    },
    fuelPressure: { high: "has more fuel pressure at idle", low: "has less fuel pressure at idle" },
    warmUpMin: { high: "warms up more slowly", low: "warms up faster" },
    magnetoLeft: { high: "drops more on the left magneto", low: "drops less on the left magneto" },
    magnetoRight: { high: "drops more on the right magneto", low: "drops less on the right magneto" },
    featherDrop: { high: "drops more on feathering", low: "drops less on feathering" },
    other: { high: "reads higher", low: "reads lower" },
  },
  note: (n: number, does: string, count: number, from: string, to: string, found: string) =>
    `Number ${n} ${does} than in its ${count} starts from ${from} to ${to}: ${found}.`,
  atLast: (value: string, limit: string) => `${value} at the last start, limit ${limit}`,
  onAverage: (value: string, since: string, usual: string) =>
    `${value} on average since ${since}, before ${usual}`,
};

export type HistoryWords = typeof history;
