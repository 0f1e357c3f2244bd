import { pluralsOf } from "../../../shared/words/plural.ts";

const plural = pluralsOf("en");
const starts = (n: number) => `${n} ${plural(n, { one: "start", other: "starts" })}`;

/** The pages of an aircraft's and an engine's history. */
export const history = {
  aircraftTitle: (id: string) => `History of ${id}`,
  aircraftLead: (n: number) => `${starts(n)} of its engines on record, times by the server in UTC`,
  engineTitle: (serial: string) => `Engine ${serial}`,
  fittedAt: (n: number, aircraft: string) => `Number ${n} of ${aircraft}`,
  fittedNowhere: "On no aircraft now",
  hours: (hours: string) => `${hours} h`,
  startsOf: starts,
  register: "Register",
  files: "Files to save",
  aircraftHistory: "Aircraft's history",
  save: "Table (CSV)",
  saveAll: "All of it, signed",
  notes: "What its engines do otherwise than before",
  notesOfOne: "What it does otherwise than before",
  noNotes: "Nothing stands out at the last starts.",
  notesAre:
    "Worked out from the record. It is no alert and bars nothing: look, ask, and write a defect if there is one.",
  standing: "What stands now",
  nothingStands: "No defect is open and nothing else stands at the aircraft.",
  engines: "Engines",
  noSerial: (n: number) =>
    `Number ${n} has no serial number in the register, so its history is not kept apart.`,
  none: "No start is on record yet.",
  year: "Which engine drifts? An invented year",
  yearIs:
    "Everything in it is invented: a scripted crew plays some 50 starts of two of the demo's aircraft, and some parts wear. It takes half a minute. Then see which engine changes, and since when.",
  yearMake: "Make the year",
  yearMaking: (made: number, of: number) => `The crew plays: ${made} of ${of || "…"}`,
  more: "Older starts are left out.",
  startsTable: "Starts, the newest first",
  day: "Day",
  engine: "Engine",
  reached: "Came to",
  reachedAs: { cranked: "did not catch", caught: "caught", running: "ran", stable: "stable" },
  record: "Record",
  openRecord: (day: string) => `Open the record of ${day}`,
  starterAs: "Starter",
  measured: (figure: string) => `measured ${figure}`,
  differs: {
    starter: "starter differs from measured",
    volts: "volts differ from measured",
    oilFirst: "first oil pressure differs from measured",
  },
  oilAs: "Oil pressure",
  cockpitAs: "Cockpit",
  stopsAs: "Stops and alerts",
  cleared: "without clearance",
  stop: { hold: "hold", cut: "cut", fire: "fire" },
  alerts: (n: number) => `${n} ${plural(n, { one: "alert", other: "alerts" })}`,
  charts: "Charts",
  others: "Figures without limits",
  since: {
    first: (day: string) => `From its first start here, ${day}.`,
    moved: (day: string) => `Begun anew on ${day}: the engine was moved here.`,
    overhauled: (day: string) => `Begun anew on ${day}: its hours began again.`,
    otherStarter: (day: string) => `Begun anew on ${day}: another starter was fitted.`,
  },
  baseline: (n: number, from: string, to: string) =>
    `Limits from its first ${n} starts, ${from} to ${to} (shaded).`,
  tooFew: (have: number, missing: number) =>
    `${starts(have)} read: no limits yet, ${missing} more ${plural(missing, { one: "is", other: "are" })} needed.`,
  noSpread: "The first starts all read the same, so no limits can be drawn.",
  notTrusted: (r: string, most: string) =>
    `Neighbouring starts depend on each other (correlation ${r}, at most ${most}): do not trust these limits. No signal is taken from them.`,
  trusted: (r: string, most: string) =>
    `Neighbouring starts are independent enough (correlation ${r}, at most ${most}).`,
  lanes: {
    starts: "Each start",
    average: "Running average (EWMA)",
    ranges: "Change from start to start (moving range)",
    sums: "Summed departure (CUSUM): up above the line, down below it",
  },
  rules: {
    beyondLimits: "beyond the limits",
    jump: "jump",
    average: "average beyond its limits",
    sum: "sum beyond its limit",
  },
  mean: "mean",
  quiet: "No signal at the last start.",
  signalled: (rules: string) => `At the last start: ${rules}.`,
  table: (figure: string) => `Table: ${figure}`,
  moreCharts: "More charts",
  signals: "Signals",
  notRead: "not read",
  outOf: (read: number, all: number) => `${read} of ${all} starts read`,
};

export type HistoryPageWords = typeof history;
