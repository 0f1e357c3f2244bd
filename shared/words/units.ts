const UNIT_WORDS: Readonly<Record<string, string>> = {
  degC: "°C",
  degF: "°F",
  percent: "%",
  ohm: "Ω",
  USgal: "US gal",
  count: "",
};

/** Returns a unit as it is written beside a figure; empty for plain numbers. */
export function unitWord(unit: string): string {
  return UNIT_WORDS[unit] ?? unit;
}
