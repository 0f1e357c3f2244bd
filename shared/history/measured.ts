import type { StarterUse } from "../engine/life.ts";
import { oilLimitsAt } from "../models/oil/oilBands.ts";
import { inUnit } from "../models/units.ts";
import type { FactOf } from "../protocol/events.ts";
import type { Unit } from "../protocol/quantity.ts";
import type { SessionState } from "../session/state.ts";
import { airTemperature } from "../weather/air.ts";
import type { MeasuredFigure, StartRow } from "./row.ts";

/** Readings of the bus or of oil pressure by an instrument in one stretch of time, by its own clock. */
export interface Stretch {
  gauge: string;
  engine: number | null;
  from: number;
  to: number;
  value: number;
  least: number;
  most: number;
  unit: Unit;
}

/** Time of the newest stretches that are kept: longer than an engagement and its oil pressure take. Milliseconds. */
const KEPT_MS = 120_000;
const GAUGES = ["busVolts", "oilPressure"];

/** Returns the stretches after what an instrument has read. */
export function stretchesAfter(
  stretches: readonly Stretch[],
  { readings, from, to }: FactOf<"instrumentsRead">,
): Stretch[] {
  const added = readings.flatMap(({ gauge, engine = null, value, least, most, unit }) =>
    GAUGES.includes(gauge) ? [{ gauge, engine, from, to, value, least, most, unit }] : [],
  );
  return [...stretches.filter((s) => to - s.to < KEPT_MS), ...added];
}

/**
 * Returns the figures of one start as instruments measured them, to half a second: the record has each gauge once a
 * second, and each crossing of a mark at once.
 * @param use the engagement as people reported it; `caught` is the catch as reported, null before it
 */
export function measuredFigures(
  stretches: readonly Stretch[],
  state: SessionState,
  { n, use, caught }: { n: number; use: StarterUse; caught: number | null },
): StartRow["figures"] {
  const { measured: rules, oil } = state.type;
  if (!rules) return {};
  const sag = sagOf(
    stretches.filter((s) => s.gauge === "busVolts"),
    rules.starterBelow.value,
    use,
  );
  const { firstIndication } = oilLimitsAt(oil, airTemperature(state));
  const shown = stretches.find(
    (s) =>
      s.gauge === "oilPressure" &&
      s.engine === n &&
      s.to >= use.on &&
      s.most >= inUnit(firstIndication.atLeast, s.unit),
  );
  const oilS = shown && caught !== null ? Math.max(0, (middle(shown) - caught) / 1000) : null;
  return {
    ...(sag?.seconds == null ? {} : { starterMeasuredS: { value: sag.seconds, unit: "s" } }),
    ...(sag ? { voltsMeasured: { value: sag.least, unit: "V" } } : {}),
    ...(oilS === null ? {} : { oilFirstMeasuredS: { value: oilS, unit: "s" } }),
  };
}

const middle = ({ from, to }: Stretch) => (from + to) / 2;

/** Returns how long the volts stayed below a figure around an engagement, and the lowest; null when they never did. */
function sagOf(
  volts: readonly Stretch[],
  below: number,
  { on, off }: StarterUse,
): { seconds: number | null; least: number } | null {
  const first = volts.findIndex(
    (s, i) =>
      s.least < below && endOfSag(volts, i, below).to >= on && s.from <= (off ?? Number.POSITIVE_INFINITY),
  );
  const begin = volts[first];
  if (!begin) return null;
  const { last, over } = endOfSag(volts, first, below);
  const sag = volts.slice(first, last + 1);
  const end = sag.at(-1) ?? begin;
  const least = Math.min(...sag.map((s) => s.least));
  if (!over) return { seconds: null, least };
  // A stretch in which the volts came back ended somewhere inside it.
  const back = end.value < below ? end.to : middle(end);
  return { seconds: Math.max(0, back - middle(begin)) / 1000, least };
}

/** Returns where the volts that sag at `first` stop doing so, and whether they were seen to. */
function endOfSag(volts: readonly Stretch[], first: number, below: number) {
  let last = first;
  while ((volts[last]?.value ?? below) < below && (volts[last + 1]?.least ?? below) < below) last += 1;
  const over = (volts[last]?.value ?? 0) >= below || last + 1 < volts.length;
  return { last, over, to: volts[last]?.to ?? 0 };
}

/** Returns each figure for which people said something else than an instrument measured, by more than the type allows. */
export function differences(
  figures: StartRow["figures"],
  { measured: rules }: SessionState["type"],
): StartRow["differs"] {
  if (!rules) return [];
  const pairs: [MeasuredFigure, keyof StartRow["figures"], keyof StartRow["figures"], number][] = [
    ["starter", "starterS", "starterMeasuredS", rules.starterWithin.value],
    ["volts", "voltsSeen", "voltsMeasured", rules.voltsWithin.value],
    ["oilFirst", "oilFirstS", "oilFirstMeasuredS", rules.oilWithin.value],
  ];
  return pairs.flatMap(([figure, said, measured, within]) => {
    const [a, b] = [figures[said]?.value, figures[measured]?.value];
    if (a === undefined || b === undefined || Math.abs(a - b) <= within) return [];
    return [{ figure, said: a, measured: b, within }];
  });
}
