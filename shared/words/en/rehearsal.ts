import type { FaultKind } from "../../protocol/rehearsalFaults.ts";
import type { Suffered } from "../../protocol/rehearsedFact.ts";
import type { ScriptFaultKind } from "../../rehearsal/scriptFaults.ts";

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
  scriptFaults: {
    needsNoPost: "this fault befalls no post: leave the post out",
    never: "with a chance of 0 it never comes: take the fault out",
    twice: "the same fault comes at the same moment already",
  } satisfies Record<ScriptFaultKind, string> as Record<ScriptFaultKind, string>,
  thrown: (fault: string, by: string) => `${fault}, thrown by ${by}`,
  goodHands: "Rehearsal: good hands work the controls",
  hands: (worked: string) => `Rehearsal, controls: ${worked}`,
  worked: (n: string, what: string) => `number ${n}: ${what}`,
  levers: (mixture: string, throttle: string) => `mixture ${mixture} %, throttle ${throttle} %`,
  controls: {
    starter: "starter",
    primer: "primer",
    ignition: "ignition",
    boostPump: "boost pump",
    vacuum: "vacuum from here",
    generators: "generators on",
  },
  pace: (speed: number, frozen: boolean, by: string) =>
    frozen ? `Rehearsal: frozen by ${by}` : `Rehearsal: goes on at speed ${speed}, by ${by}`,
  stood: "Rehearsal: the simulated aircraft stood still until now, as the server did",
  takenBack: (seq: number, by: string, to: string) =>
    `Rehearsal: taken back to event ${seq} by ${by}; it goes on as ${to}`,
  goesOn: (seq: number, by: string, from: string) =>
    `Rehearsal: it begins here. Everything before is retold from ${from}, up to its event ${seq}, by ${by}`,
  limit: (allowed: string) => `limit ${allowed}`,
};
export type RehearsalWords = typeof rehearsal;
