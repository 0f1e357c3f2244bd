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

export const reportFaults = {
  twice: (part: string) =>
    `${part} is there twice and differs: two reports may be in it. Paste one report, or enter the wind by hand.`,
  unreadable: "This cannot be read as a METAR. Paste the whole report, or enter the wind by hand.",
  old: (age: number, most: number) =>
    `This report is ${age} min old; after ${most} min it is too old. Paste the newest.`,
  impossible: (part: string, figure: string) =>
    `${part} ${figure} cannot be right. Check the report, or enter the wind by hand.`,
};

export const reportThunder = {
  swings: (from: number, to: number) => `swings from ${from}° to ${to}°`,
  told: "The report gives a thunderstorm. It counts as near lightning from the moment it is recorded.",
};
