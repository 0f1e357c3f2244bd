/** The end of a deferral, after "deferred". */
export const deferral = {
  to: (day: string) => `to ${day}`,
  starts: (n: number) => (n === 1 ? "for 1 start" : `for ${n} starts`),
  both: (to: string, starts: string) => `${to}, ${starts} at most`,
};

export type DeferralWords = typeof deferral;
