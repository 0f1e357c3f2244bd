/** The defects of an aircraft, on its page. */
export const defectLife = {
  title: "Defects",
  none: "No open defect.",
  aircraft: "Aircraft",
  engine: (n: number) => `Number ${n}`,
  bars: "Blocks the start",
  barsNot: "Does not block the start",
  deferredTo: (left: string) => `Deferred ${left}`,
  deferralOver: (given: string) => `Deferred ${given}: over, it blocks the start`,
  toInspect: "Mended, not inspected",
  toInspectBars: "Mended. Blocks the start until it is inspected",
  again: (times: number) =>
    `Written ${times === 1 ? "once" : `${times} times`} before, here, in the same words`,
  written: (name: string, when: string) => `Written by ${name}, ${when}`,
  deferred: (name: string, when: string, given: string, why: string) =>
    `Deferred ${given}, by ${name}, ${when}: ${why}`,
  used: (n: number) => (n === 1 ? "1 start made since" : `${n} starts made since`),
  mended: (name: string, when: string, done: string) => `Mended by ${name}, ${when}: ${done}`,
  inspected: (name: string, when: string) => `Inspected and closed by ${name}, ${when}`,
  closed: (name: string | null, when: string) =>
    name === null ? `Closed ${when}` : `Closed by ${name}, ${when}`,
  session: "The start it belongs to",
  closedOnes: (n: number) => `Closed (${n})`,
  write: "Write up a defect",
  defer: "Defer it",
  close: "Close it",
  inspect: "It is inspected",
  mendAnew: "Mended anew",
  until: "Last day on which it does not block the start",
  starts: "Starts for which it does not block it",
  both: "With both, the first that is over ends the deferral.",
  why: "Why may it wait?",
  done: "What was done?",
  found: "What did the inspection find? Another person than the one who mended it says so",
  leave: "Leave it as it is",
};

export type DefectLifeWords = typeof defectLife;
