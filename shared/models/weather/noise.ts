/** A person's time at one level. */
export interface NoiseExposure {
  dBA: number;
  hours: number;
}

/** The rule by which a dose is calculated: data with a source. */
export interface NoiseRule {
  /** Level permitted for eight hours. */
  criterionDBA: number;
  /** Decibels that halve the permitted time. */
  exchangeDb: number;
  /** Levels below this add nothing to the dose. */
  thresholdDBA: number;
}

/** 29 CFR 1910.95: the permissible dose (a) counts levels from 90 dBA, the hearing programme (c) from 80. */
export const OSHA_PERMISSIBLE: NoiseRule = { criterionDBA: 90, exchangeDb: 5, thresholdDBA: 90 };
export const OSHA_PROGRAMME: NoiseRule = { criterionDBA: 90, exchangeDb: 5, thresholdDBA: 80 };

/**
 * Returns the permitted hours at a level: T = 8 / 2^((L - criterion) / exchange) (29 CFR 1910.95 app. A, from memory).
 */
export function permittedHours(dBA: number, rule: NoiseRule): number {
  return 8 / 2 ** ((dBA - rule.criterionDBA) / rule.exchangeDb);
}

/** Returns the dose over a day, percent: D = 100 sum(C / T). */
export function noiseDose(day: readonly NoiseExposure[], rule: NoiseRule): number {
  return day
    .filter((e) => e.dBA >= rule.thresholdDBA)
    .reduce((dose, e) => dose + (100 * e.hours) / permittedHours(e.dBA, rule), 0);
}

/**
 * Returns the eight-hour time-weighted average, dBA, of a dose in percent: TWA = exchange · log2(D / 100) + criterion,
 * which for 5 dB is the rule's 16.61 log10(D / 100) + 90. A dose of 0 has no average: null.
 */
export function timeWeightedAverage(dose: number, rule: NoiseRule): number | null {
  return dose > 0 ? rule.exchangeDb * Math.log2(dose / 100) + rule.criterionDBA : null;
}

/**
 * Returns the hours that a person may still spend at a level before the dose reaches `ceiling` percent; Infinity below
 * the threshold.
 */
export function hoursLeft(
  day: readonly NoiseExposure[],
  dBA: number,
  ceiling: number,
  rule: NoiseRule,
): number {
  if (dBA < rule.thresholdDBA) return Number.POSITIVE_INFINITY;
  return (Math.max(0, ceiling - noiseDose(day, rule)) / 100) * permittedHours(dBA, rule);
}
