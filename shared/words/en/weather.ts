/** Names of the parts of a weather report. */
export const reportParts = {
  wind: "Wind",
  gust: "Gusts",
  direction: "Wind from",
  temperature: "Air",
  dewPoint: "Dew point",
  qnh: "QNH",
  observed: "Observed",
};

/** The reason why a pasted report is not used, and what to do. Ages in minutes. */
export const reportFaults = {
  unreadable: "This cannot be read as a METAR. Paste the whole report, or enter the wind by hand.",
  old: (age: number, most: number) =>
    `This report is ${age} min old; after ${most} min it says nothing of now. Paste the newest.`,
  impossible: (part: string, figure: string) =>
    `${part} ${figure} cannot be right. Check the report, or enter the wind by hand.`,
};
