/** A meter's record of ground power, entered by hand. */
export const trace = {
  title: "A meter's record of the volts",
  open: "Enter a meter's record",
  close: "Close",
  lead: "One sample a line: seconds, then volts. Judged by the type's limits for volts over time.",
  samples: "Seconds and volts",
  cranked: "An engine was cranked during it",
  from: "Cranking from, seconds of the record",
  to: "Cranking to, seconds of the record",
  ended: "The record ended so many seconds ago",
  cranking: "Cranking needs a beginning before its end, both within the record.",
  ago: "Say how many seconds ago it ended, 0 to 3600.",
  give: (samples: number, seconds: string) => `Record ${samples} samples, ${seconds} s`,
  notYet: "Paste the record",
};
