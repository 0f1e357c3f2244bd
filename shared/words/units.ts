import type { UnitFamily } from "../models/unitChoice.ts";

const UNIT_WORDS: Readonly<Record<string, string>> = {
  degC: "°C",
  degF: "°F",
  percent: "%",
  ohm: "Ω",
  USgal: "US gal",
  count: "",
};

/** A unit as it is written beside a figure; empty for plain numbers. */
export function unitWord(unit: string): string {
  return UNIT_WORDS[unit] ?? unit;
}

/** What a person chooses a unit for. */
export const UNIT_FAMILY_WORDS: Readonly<Record<UnitFamily, string>> = {
  pressure: "Pressure: oil, fuel, brakes",
  airPressure: "Pressure of the air: manifold, suction, QNH",
  temperature: "Temperature",
  volume: "Volume",
  mass: "Mass",
};

/** The sheet on which a person chooses. */
export const UNIT_SHEET_WORDS = {
  title: "Units",
  key: "Units",
  asRead: "As read",
  what: "Figures are shown in the units you choose, on this device. The figure as it was read stands behind in brackets, or one touch away. Gauges are entered and limits are kept in their own unit.",
} as const;
