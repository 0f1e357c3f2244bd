import type { StartAlert } from "../row.ts";
import { grouped, largestFirst } from "./counts.ts";
import type { HouseFigures } from "./schema.ts";

/** An alert that is over sooner, without an act, asked nobody for anything. Seconds; common practice, no source. */
export const BRIEF_S = 10;

/**
 * Returns true for an alert that was over within seconds although nobody did anything but take note of it: a fleeting
 * alarm of ISA-18.2 (from memory), one that is over before an operator can act.
 */
export const isBrief = ({ at, ended, acted }: StartAlert): boolean =>
  !acted && ended !== null && ended - at < BRIEF_S * 1000;

/** Returns true for an alert that the crew put aside, or that was brief. One that is both is one. */
export const isNuisance = (alert: StartAlert): boolean => alert.shelved || isBrief(alert);

/** Returns the alerts by kind, with those that were a nuisance. `perStart` gives a rate, or null. */
export function alertFigures(
  alerts: readonly StartAlert[],
  perStart: (count: number) => number | null,
): HouseFigures["alerts"] {
  const nuisance = alerts.filter(isNuisance).length;
  const kinds = grouped(alerts, ({ kind }) => kind).map(([kind, of]) => ({
    kind,
    raised: of.length,
    perStart: perStart(of.length),
    shelved: of.filter(({ shelved }) => shelved).length,
    brief: of.filter(isBrief).length,
    nuisance: of.filter(isNuisance).length,
  }));
  return {
    briefS: BRIEF_S,
    raised: alerts.length,
    perStart: perStart(alerts.length),
    nuisance,
    nuisancePerStart: perStart(nuisance),
    kinds: largestFirst(kinds, ({ raised }) => raised),
  };
}
