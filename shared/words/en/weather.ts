import type { LightningAct } from "../../protocol/lightningActs.ts";

/** Names of the parts of a weather report. */
export const reportParts = {
  wind: "Wind",
  gust: "Gusts",
  direction: "Wind from",
  temperature: "Air",
  dewPoint: "Dew point",
  qnh: "QNH",
  observed: "Observed",
  thunder: "Thunder",
};

/** The reason why a pasted report is not used, and what to do. Ages in minutes. */
export const reportFaults = {
  twice: (part: string) =>
    `${part} is there twice and differs: two reports may be in it. Paste one report, or enter the wind by hand.`,
  unreadable: "This cannot be read as a METAR. Paste the whole report, or enter the wind by hand.",
  old: (age: number, most: number) =>
    `This report is ${age} min old; after ${most} min it is too old. Paste the newest.`,
  impossible: (part: string, figure: string) =>
    `${part} ${figure} cannot be right. Check the report, or enter the wind by hand.`,
};

/** What else a report says: a direction that swings, and a thunderstorm. */
export const reportThunder = {
  swings: (from: number, to: number) => `swings from ${from}° to ${to}°`,
  told: "The report gives a thunderstorm. It counts as near lightning from the moment it is recorded.",
};

/** The act asked of a post while lightning stops work. */
export const lightningActs: Readonly<Record<LightningAct, string>> = {
  startNothing: "Start nothing.",
  leaveAircraft: "Start nothing. Leave the aircraft and go into shelter.",
  shelter: "Go into shelter and wait there.",
  clearOfCable: "Touch neither cable nor cart. Stay clear of both, in shelter.",
  unplug: "With the crew's permission: output off and unplug. Then stay clear of cable and cart.",
  clearRamp: "Clear nothing. See that nobody stays outside.",
};
