/** Charts of readings over time, and the look back at the exchange. */
export const charts = {
  title: (minutes: number) => `Readings of the last ${minutes} min`,
  none: "No readings yet. They are drawn here.",
  engine: (n: number) => `Number ${n}`,
  aircraft: "Aircraft",
  groundPower: "Ground power",
  bands: {
    belowMin: "below minimum",
    usable: "not yet normal",
    normal: "normal",
    caution: "above normal",
    over: "over the limit",
  },
  old: (time: string) => `${time} old`,
  says: (what: string, where: string, figure: string, band: string, time: string, count: number) =>
    `${what}, ${where}: ${figure}, ${band}, ${time} ago; ${count} readings`,
};

export const past = {
  lookBack: "Look back",
  title: "THE PAST",
  lead: (time: string, seq: number, of: number) =>
    `${time}, number ${seq} of ${of}. Nothing here can be answered.`,
  now: "Back to now",
  scrub: "Moment shown",
  earlier: "Earlier",
  later: "Later",
  stage: (stage: string) => `Stage: ${stage}`,
  asked: "Asked then",
  nothing: "Nothing was asked.",
  stops: "Stops at that time",
};
