import { found, type Outcome, outside, refused } from "../outcome.ts";

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

/** Levels from the threshold of hearing to beyond any engine, and the hours of a week. */
function badExposure({ dBA, hours }: NoiseExposure): string | null {
  return outside("sound level", dBA, 0, 200, "dBA") ?? outside("time", hours, 0, 168, "h");
}

function badRule({ criterionDBA, exchangeDb, thresholdDBA }: NoiseRule): string | null {
  return (
    outside("criterion level", criterionDBA, 1, 200, "dBA") ??
    outside("exchange rate", exchangeDb, 0.1, 20, "dBA") ??
    outside("threshold", thresholdDBA, 0, 200, "dBA")
  );
}

/**
 * Returns the permitted hours at a level: T = 8 / 2^((L - criterion) / exchange) (29 CFR 1910.95 app. A, from memory).
 * Levels 0 to 200 dBA.
 */
export function permittedHours(dBA: number, rule: NoiseRule): Outcome<number> {
  const why = badRule(rule) ?? badExposure({ dBA, hours: 0 });
  return why ? refused(why) : found(hoursAt(dBA, rule));
}

const hoursAt = (dBA: number, rule: NoiseRule) => 8 / 2 ** ((dBA - rule.criterionDBA) / rule.exchangeDb);

/** Returns the dose over a day, percent: D = 100 sum(C / T). Refuses a level or a time that cannot be. */
export function noiseDose(day: readonly NoiseExposure[], rule: NoiseRule): Outcome<number> {
  const why = badRule(rule) ?? day.map(badExposure).find((w) => w !== null);
  if (why) return refused(why);
  return found(
    day
      .filter((e) => e.dBA >= rule.thresholdDBA)
      .reduce((dose, e) => dose + (100 * e.hours) / hoursAt(e.dBA, rule), 0),
  );
}

/**
 * Returns the eight-hour time-weighted average, dBA, of a dose in percent: TWA = exchange · log2(D / 100) + criterion,
 * which for 5 dB is the rule's 16.61 log10(D / 100) + 90. A dose of 0 has no average: null.
 */
export function timeWeightedAverage(dose: number, rule: NoiseRule): Outcome<number | null> {
  const why = badRule(rule) ?? outside("dose", dose, 0, 1e9, "percent");
  if (why) return refused(why);
  return found(dose > 0 ? rule.exchangeDb * Math.log2(dose / 100) + rule.criterionDBA : null);
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
): Outcome<number> {
  const dose = noiseDose(day, rule);
  if (!dose.ok) return dose;
  const why = badExposure({ dBA, hours: 0 }) ?? outside("ceiling", ceiling, 0, 1e9, "percent");
  if (why) return refused(why);
  if (dBA < rule.thresholdDBA) return found(Number.POSITIVE_INFINITY);
  return found((Math.max(0, ceiling - dose.value) / 100) * hoursAt(dBA, rule));
}
