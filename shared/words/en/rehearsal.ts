import type { FaultKind } from "../../protocol/rehearsalFaults.ts";
import type { Suffered } from "../../protocol/rehearsedFact.ts";

const faults: Record<FaultKind, string> = {
  noOilPressure: "no oil pressure",
  oilLost: "oil pressure lost",
  hungStart: "hung start",
  kickback: "kickback",
  flooded: "flooded",
  inductionFire: "fire in the induction",
  exhaustFire: "fire in the exhaust",
  nacelleFire: "fire in the nacelle",
  torching: "torching, which is no fire",
  cartSags: "the cart sags",
  cartDrops: "the cart drops out",
  plugFallsOut: "the power plug falls out",
  generatorDead: "dead generator",
  vacuumDead: "the vacuum does not come alive",
  brakesBleed: "the brakes bleed",
  guardLost: "the guard is lost from sight",
  personInArc: "a person in the arc",
  wrongNumber: "a wrong number read back",
  handContradicts: "a hand signal against the panel",
  deadTablet: "a dead tablet",
  networkGone: "the network is gone",
  lightning: "lightning",
};

const suffered: Record<Suffered, string> = {
  starterHeat: "hottest starter",
  withoutOil: "ran without oil pressure",
};

/** Words of a rehearsal's own events. */
export const rehearsal = {
  faults,
  suffered,
  fault: (what: string) => `Rehearsal: ${what}`,
  faultAt: (what: string, n: number) => `Rehearsal: ${what}, number ${n}`,
  mark: (words: string, by: string) => `Rehearsal, marked by ${by}: ${words}`,
  word: (post: string, words: string, by: string) => `Rehearsal, ${by} to ${post}: ${words}`,
  figure: (n: number, what: string, found: string) => `Rehearsal, number ${n}: ${what} ${found}`,
  limit: (allowed: string) => `limit ${allowed}`,
};
export type RehearsalWords = typeof rehearsal;
