/**
 * Words of the faults that knowledge of the trade finds, in English. `{1}` and up hold figures, units and names. The
 * panels' catalogue must hold the same names in every other language.
 */
export const FAULTS = {
  leastAboveMost: "the least, {1}, is above the most, {2}",
  normalReversed: "normal begins at {1}, above its end at {2}",
  normalBelowLeast: "normal begins at {1}, below the least, {2}",
  normalAboveMost: "normal ends at {1}, above the most, {2}",
  offScale: "{1} is off the scale, which reads {2} to {3}",
  scaleReversed: "the scale begins at {1} and must end above it, not at {2}",
  stepTooLarge: "a step of {1} is larger than the whole scale, {2}",
  notPressure: "a pressure is read in psi, kPa, bar, inHg or hPa, not in {1}",
  notTemperature: "a temperature is read in degC or degF, not in {1}",
  notUnit: "must be read in {1}, not in {2}",
  notPositive: "must be above zero, not {1}",
  escalatesEarly: "the alert after {1} s must come later than the reminder after {2} s",
  clearanceTooShort: "a clearance of {1} s ends before its read-back is late, after {2} s",
  tooShortToAct: "{1} s is too short for a person to act: at least {2} s",
  stepsTooClose: "{1} s after the step before is too short for a person to reach the panel: at least {2} s",
  gateOffScale: "no gauge reaches it: {1} lies beyond the scale, {2} to {3}",
  gateAboveMost: "no engine may reach it: {1} is above the gauge's most, {2}",
  riseTooLarge: "no gauge shows it: a rise of {1} on a scale of {2}",
  dropTooSmall: "no gauge shows it: a drop of {1} on a gauge with a step of {2}",
  pressureAboveNormal: "{1} is above the pressure the gauge calls normal at most, {2}",
  propellersOverlap: "propellers {1} and {2} overlap: {3} m apart, {4} m across",
  offTheWing: "engine {1} stands {2} m from the centre line, off the wing of {3} m from tip to tip",
  aheadOfNose: "lies {1} m ahead of the nose",
  aftOfTail: "lies {1} m aft of the nose, behind the tail at {2} m",
  trackBeyondSpan: "the wheels are {1} m apart, beyond the wing of {2} m from tip to tip",
  besideWing: "lies {1} m from the centre line, beyond the wing of {2} m from tip to tip",
  unitWithoutFigure: "the unit changed from {1} to {2} and the figure stayed {3}",
  scaleUnitWithoutFigures: "the unit changed from {1} to {2} and the figures stayed as they were",
  ladderTooHot: "the ladder permits {1} K, more than the most, {2} K",
  batteryNotRested: "at {1} V a battery of {2} cells has not rested or has a dead cell: it tells no charge",
  gravityImpossible: "no acid has the gravity {1}: it tells no charge",
  noElectrolyte: "no battery's acid is liquid at {1} {2}",
  nickelTellsNothing: "the volts of a nickel-cadmium battery tell no charge: take the check out",
  batteryNoEnd: "give the least and the most: without both the battery's charge cannot be worked out",
  nobodyAsked: "nobody is asked for a check in the stage {1}",
  listedTwice: "{1} is listed twice",
  noGenerator: "generatorsCarry can never be met: no engine of the default order drives a generator",
  inboardAlone:
    "inboardStopped leaves no engine running: the default order starts none but those next to the wheels",
  attemptsAlone: "the condition attemptsLeft needs a number of attempts",
  primeGauge: "no temperature gauge of each engine is called {1}",
  inventedFigure: "invented: give the manual's figure with its page",
  anotherTypesFigure: "about another type: give this type's own figure with its page",
  noSource: "a source is needed: the manual and its page, or who says so",
  farFromPublished: "{1} is far from every published figure, {2} to {3} ({4}): look again in the manual",
  startingBelow: "the band while cranking begins at {1} V, above the steady band's least, {2} V",
} as const;
export type FaultName = keyof typeof FAULTS;

/** Returns the words of a fault, with its places filled in order. */
export function faultText(name: FaultName, ...held: readonly (string | number)[]): string {
  return FAULTS[name].replace(/\{(\d)\}/g, (_whole, place: string) => String(held[Number(place) - 1] ?? ""));
}
