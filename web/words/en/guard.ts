/** The fire guard's reports as they stand now. */
export const guard = {
  region: (n: number) => `I stand at number ${n}`,
  at: (n: number, time: string) => `I stand at number ${n}, said ${time} ago.`,
  arcClear: (time: string) => `Arc clear, said ${time} ago.`,
  arcNotClear: (time: string) => `Arc not clear, said ${time} ago.`,
  arcUnknown: "Arc not reported.",
  arcUsed: (n: number) => `The report that the arc is clear was used by the start of number ${n}.`,
  old: "That is old.",
};
