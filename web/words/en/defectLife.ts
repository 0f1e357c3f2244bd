/** The defects of an aircraft, on its page. */
export const defectLife = {
  title: "Defects",
  none: "No open defect.",
  aircraft: "Aircraft",
  engine: (n: number) => `Number ${n}`,
  bars: "Blocks the start",
  barsNot: "Does not block the start",
  deferredTo: (day: string) => `Deferred to ${day}`,
  deferralOver: (day: string) => `Deferred to ${day}: over, it blocks the start`,
  again: (times: number) =>
    `Written ${times === 1 ? "once" : `${times} times`} before, here, in the same words`,
  written: (name: string, when: string) => `Written by ${name}, ${when}`,
  deferred: (name: string, when: string, day: string, why: string) =>
    `Deferred to ${day} by ${name}, ${when}: ${why}`,
  closed: (name: string | null, when: string) =>
    name === null ? `Closed ${when}` : `Closed by ${name}, ${when}`,
  session: "The start it belongs to",
  closedOnes: (n: number) => `Closed (${n})`,
  write: "Write up a defect",
  defer: "Defer it",
  close: "Close it",
  until: "Last day on which it does not block the start",
  why: "Why may it wait?",
  done: "What was done?",
  leave: "Leave it as it is",
};

export type DefectLifeWords = typeof defectLife;
