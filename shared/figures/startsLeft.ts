import { startAmpHours, startsLeft } from "../models/electrical/startsLeft.ts";
import { batteriesNow } from "../power/crankingSource.ts";
import type { Unit } from "../protocol/quantity.ts";
import type { SessionState } from "../session/state.ts";
import { batteryCaution, batteryInputs } from "./crankingSource.ts";
import { cautions, type Figure, type FigureInput, ofType, ofTypeData } from "./figure.ts";

/** Returns the starts that the batteries can still give before the bus falls too low or the charge below its floor. */
export function startsLeftFigure(state: SessionState): Figure | null {
  const rules = state.type.electrical;
  if (!rules?.batteries) return null;
  const base = {
    id: "startsLeft",
    words: "startsLeft",
    unit: "count" as const,
    equation:
      "N = (charge - floor) C / (I t / 3600 (I / Irated)^(k - 1)), each start on the volts its forerunners left",
    source: "Peukert 1897 for a short draw; Ohm's law for the bus",
    inputs: [
      ...batteryInputs(state, rules),
      ...rules.batteries.flatMap((b) => [
        ofType(`${b.name}, capacity`, b.capacity),
        ofType(`${b.name}, rated over`, b.ratedOver),
        ofTypeData(`${b.name}, Peukert's exponent`, b.exponent.value, b.exponent.source),
        ofType(`${b.name}, charge no start goes below`, b.floor),
      ]),
      ofType("cranking current", rules.starter.steady),
      ofType("time of one start", rules.starter.time),
      ofType("least volts", rules.leastVolts),
    ],
  };
  const now = batteriesNow(state, rules);
  if (!now.ok) return { ...base, value: null, verdict: "unknown", ...cautions(now.why) };
  // The batteries share the current by their ohms; the weakest battery decides.
  const conductance = now.value.reduce((sum, b) => sum + 1 / b.ohm, 0);
  let least = Number.POSITIVE_INFINITY;
  const told: FigureInput[] = [];
  for (const b of now.value) {
    const share = 1 / b.ohm / conductance;
    const rating = {
      ampHours: b.data.capacity.value,
      hours: b.data.ratedOver.value,
      exponent: b.data.exponent.value,
    };
    const crank = { amps: rules.starter.steady.value * share, seconds: rules.starter.time.value };
    const one = startsLeft({
      battery: b.data.cell,
      rating,
      crank,
      charge: b.charge,
      floor: b.data.floor.value / 100,
      degC: b.degC,
      internalOhm: b.ohm,
      // The leads carry the whole current, so for one battery their ohms count by its share.
      cableOhm: (rules.leadOhm?.value ?? 0) / share,
      leastVolts: rules.leastVolts.value,
    });
    if (!one.ok) return { ...base, value: null, verdict: "unknown", ...cautions(one.why) };
    least = Math.min(least, one.value);
    const each = startAmpHours(crank, rating);
    told.push(
      workedOut(`${b.data.name}, charge`, b.charge * 100, "percent"),
      workedOut(`${b.data.name}, one start takes`, each.ok ? each.value : null, "Ah"),
    );
  }
  const verdict = least === 0 ? "bad" : least < state.order.length ? "caution" : "good";
  const inputs = [...base.inputs, ...told];
  return { ...base, inputs, value: least, verdict, ...cautions(batteryCaution(state, rules)) };
}

const workedOut = (name: string, value: number | null, unit: Unit): FigureInput => ({
  name,
  value,
  unit,
  source: "worked out",
  at: null,
});
