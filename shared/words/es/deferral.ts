import type { DeferralWords } from "../en/deferral.ts";

/** The end of a deferral, after "aplazado". */
export const deferral: DeferralWords = {
  to: (day) => `hasta el ${day}`,
  starts: (n) => (n === 1 ? "por 1 arranque" : `por ${n} arranques`),
  both: (to, starts) => `${to}, ${starts} como máximo`,
};
