/** Readings of instruments, and the report of the field's own station. */
export const instruments = {
  title: "Read by instruments",
  lead: "An instrument answers no ask: read the gauge and enter it.",
  mark: "Instrument",
  old: (age: string) => `silent for ${age}`,
  read: (age: string) => `${age} ago`,
  person: (figure: string, name: string, age: string) => `${name} read ${figure}, ${age} ago`,
  nobody: "Nobody has read it yet",
  station: "Field's station",
  stationBy: (name: string, age: string) => `${name}, seen ${age} ago`,
  notGiven: "Its report gives no wind",
  verdicts: {
    within: "within the wind limits",
    over: "over a wind limit",
    stale: "too old",
    unknown: "not to be judged",
  },
  byInstrument: (figure: string) => `${figure}, by an instrument`,
};
