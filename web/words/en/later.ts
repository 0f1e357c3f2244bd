import { air } from "./air.ts";
import { airEntry } from "./airEntry.ts";
import { board } from "./board.ts";
import { card } from "./card.ts";
import { defects, planChange } from "./changes.ts";
import { charts, past } from "./charts.ts";
import { demo } from "./demo.ts";
import { elsewhere } from "./elsewhere.ts";
import { engineTable } from "./engineTable.ts";
import { guard } from "./guard.ts";
import { figure } from "./handFigure.ts";
import { instruments } from "./instruments.ts";
import { pad } from "./pad.ts";
import { planNotes } from "./planNotes.ts";
import { rampPage } from "./rampPage.ts";
import { record } from "./record.ts";
import { remote } from "./remote.ts";
import { postsSheet, senses, sessionSheet } from "./sessionSheet.ts";
import { keypad, language, signIn } from "./signIn.ts";
import { supervisor } from "./supervisor.ts";
import { trace } from "./trace.ts";

/** Words of parts that load after the panel itself: weather and blades by hand, the screen's size, units, what stands at an aircraft, and others with a file of their own. */

export const weather = {
  title: "Weather",
  wind: "Wind",
  gusts: "Gusts",
  air: "Air",
  calm: "Calm",
  noGusts: "No gusts",
  none: "none",
  lacks: {
    wind: "Set the wind",
    gusts: "Set the gusts, or none",
    gustsBelow: "Gusts must be above the wind, or none",
  },
  record: (wind: number, gusts: number | null, air: number | null) =>
    `Record ${wind === 0 ? "calm" : `wind ${wind} kt`}, ${gusts === null ? "no gusts" : `gusts ${gusts}`}${air === null ? "" : `, ${air} °C`}`,
};

export const blades = {
  title: "Blades counted",
  head: "Blades turned through",
  atLeast: (n: number) => `At least ${n}. Any resistance: stop and say so.`,
  unit: "blades",
  enough: "enough",
  more: (n: number) => `${n} more`,
  free: "No resistance",
  all: (n: number) => `All ${n} turned, no resistance`,
  resistance: "Resistance",
};

/** Ground power's volts. */
export const volts = {
  region: "Ground power volts",
  notRead: "Volts not read yet",
  batteries: "On batteries, no cart",
  off: "Off",
  offSaid: (ago: string) => `reported ${ago}`,
  said: (ago: string) => `read ${ago}`,
  old: (ago: string) => `read ${ago}: old, read again`,
};

/** The supervisor's line of posts. */
export const postsLine = {
  region: "What each post owes",
  nothing: "Owes nothing",
  blocks: "The start waits for this post",
  again: "Ask again",
  owes: (post: string, name: string | null) => (name === null ? post : `${post}: ${name}`),
};

/** Setting the length of a millimetre on this device. */
export const screen = {
  title: "Size on this screen",
  what: "Keys are meant to be 22 mm high, but no browser knows how large a millimetre is on your screen. Lay a bank card on the outline and step until it is as wide as the card.",
  unit: "dots",
  flat: "Lay the card lengthwise.",
  upright: "Lay the card upright: the screen is narrower than its long side.",
  found: (mm: string) => `${mm} dots to the millimetre; a device of the same kind has the same figure.`,
  card: "Bank card",
  keep: "Keep this size",
  usual: "Usual size",
};

export const units = {
  title: "Units",
  asRead: "As read",
  what: "This device shows figures in the units you choose. The figure as it was read is beside it in brackets, or one touch away. You enter a gauge in its own unit.",
  families: {
    pressure: "Pressure: oil, fuel, brakes",
    airPressure: "Pressure of the air: manifold, suction, QNH",
    temperature: "Temperature",
    volume: "Volume",
    mass: "Mass",
  },
};

/** Keys that lead to the house's register. */
export const house = {
  title: "The house",
  equipment: "Equipment",
  atStand: "Equipment at the stand",
  dues: "Dues",
};

/** The open items of each aircraft's record, on the ramp page. */
export const atAircraft = {
  region: "At the aircraft",
  nothing: "Nothing is open here",
  stops: (name: string) => `Stop ${name}`,
  keys: { hold: "Hold", cut: "Cut all engines", fire: "Fire" },
  sent: {
    hold: (name: string) => `Hold is recorded at ${name}. Give the hand signal too.`,
    cut: (name: string) => `Cut is recorded at ${name}. Give the hand signal too.`,
    fire: (name: string) => `Fire is recorded at ${name}. Give the hand signal too.`,
  },
  leave: "People may be at the aircraft with permission",
  located: "Where it burns is recorded.",
  turning: (n: number) => `Number ${n} was left turning. Nobody has seen its propeller stopped`,
  unseen: (n: number) => `Number ${n} was stopped. Nobody has seen its propeller stopped`,
  drill: (drill: string) => `Drill is open: ${drill}`,
  bars: "A defect blocks the start",
  deferred: (left: string) => `Defect, deferred ${left}`,
  defect: "Defect",
  end: "End it",
  ended: "It is ended",
  endedHere: "Ended on the ramp page",
};

export const later = {
  air,
  airEntry,
  atAircraft,
  blades,
  board,
  card,
  charts,
  defects,
  demo,
  elsewhere,
  engineTable,
  figure,
  guard,
  house,
  instruments,
  keypad,
  language,
  pad,
  past,
  planChange,
  planNotes,
  postsLine,
  rampPage,
  record,
  remote,
  screen,
  senses,
  postsSheet,
  sessionSheet,
  signIn,
  supervisor,
  trace,
  units,
  volts,
  weather,
};

export type LaterWords = typeof later;
