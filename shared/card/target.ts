import { found, type Outcome, refused } from "../models/outcome.ts";
import { convert } from "../models/units.ts";
import { stationPressureHpa } from "../models/weather/altitude.ts";
import type { Quantity, Unit } from "../protocol/quantity.ts";
import type { SessionState } from "../session/state.ts";
import type { CardTarget } from "../types/card.ts";

const TARGETS: Readonly<Record<CardTarget, (state: SessionState) => Outcome<Quantity>>> = {
  stationPressure({ weather, elevationFt }) {
    if (weather === null || weather.qnhHpa === null) return refused("QNH");
    if (elevationFt === undefined) return refused("field's height");
    return found({ value: stationPressureHpa(weather.qnhHpa, elevationFt * 0.3048), unit: "hPa" });
  },
};

/** Returns the figure to compare with, in a unit; refused with the name of what is not known yet. */
export function targetOf(state: SessionState, target: CardTarget, unit: Unit): Outcome<Quantity> {
  const of = TARGETS[target](state);
  return of.ok ? convert(of.value, unit) : of;
}
