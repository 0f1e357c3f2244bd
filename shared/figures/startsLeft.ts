import {
  capacityShare,
  type StartBattery,
  startAmpHours,
  startsLeft,
} from "../models/electrical/startsLeft.ts";
import { refused } from "../models/outcome.ts";
import { batteriesNow } from "../power/crankingSource.ts";
import type { Unit } from "../protocol/quantity.ts";
import type { SessionState } from "../session/state.ts";
import { batteryCaution, batteryInputs } from "./crankingSource.ts";
import { cautions, type Figure, type FigureInput, ofType, ofTypeData } from "./figure.ts";

const NO_CAPACITY = "the type does not say what it gives in the cold";

/** Returns the starts that the batteries can still give before the bus falls too low or the charge below its floor. */
export function startsLeftFigure(state: SessionState): Figure | null {
  const rules = state.type.electrical;
  if (!rules?.batteries) return null;
  const { steady, time, breakaway } = rules.starter;
  const crank = { amps: steady.value, seconds: time.value };
  const base = {
    id: "startsLeft",
    words: "startsLeft",
    unit: "count" as const,
    equation:
      "N = (charge - floor) C share / (I t / 3600 (I / Irated)^(k - 1)), while Voc - Ibreak (Rint + Rcable) keeps the least volts",
    source: "Peukert 1897 for a short draw; Ohm's law for the bus",
    inputs: [
      ...batteryInputs(state, rules),
      ...rules.batteries.flatMap((b) => [
        ofType(`${b.name}, capacity`, b.capacity),
        ofType(`${b.name}, rated over`, b.ratedOver),
        ofTypeData(`${b.name}, Peukert's exponent`, b.exponent.value, b.exponent.source),
        ofType(`${b.name}, charge no start goes below`, b.floor),
        ...(b.capacityAt
          ? [
              ofTypeData(
                `${b.name}, share of the capacity from ${b.capacityAt.rows[0]?.[0]} degC up`,
                b.capacityAt.rows.map(([, share]) => share).join(", "),
                b.capacityAt.source,
              ),
            ]
          : []),
      ]),
      ofType("cranking current", steady),
      ofType("breakaway current", breakaway),
      ofType("time of one start", time),
      ofType("least volts", rules.leastVolts),
    ],
  };
  const now = batteriesNow(state, rules);
  if (!now.ok) return { ...base, value: null, verdict: "unknown", ...cautions(now.why) };
  const together: StartBattery[] = [];
  const told: FigureInput[] = [];
  const conductance = now.value.reduce((sum, b) => sum + 1 / b.ohm, 0);
  for (const { data, charge, degC, ohm } of now.value) {
    const share = data.capacityAt ? capacityShare(data.capacityAt.rows, degC) : refused(NO_CAPACITY);
    if (!share.ok)
      return { ...base, value: null, verdict: "unknown", ...cautions(`${data.name}: ${share.why}`) };
    const rating = {
      ampHours: data.capacity.value,
      hours: data.ratedOver.value,
      exponent: data.exponent.value,
    };
    together.push({
      ...{ battery: data.cell, rating, charge, degC, internalOhm: ohm, share: share.value },
      floor: data.floor.value / 100,
    });
    const each = startAmpHours({ ...crank, amps: crank.amps / (ohm * conductance) }, rating);
    told.push(
      workedOut(`${data.name}, charge`, charge * 100, "percent"),
      workedOut(`${data.name}, capacity as cold as it is`, share.value * 100, "percent"),
      workedOut(`${data.name}, one start takes`, each.ok ? each.value : null, "Ah"),
    );
  }
  const left = startsLeft({
    batteries: together,
    crank,
    breakawayAmps: rules.starter.breakaway.value,
    cableOhm: rules.leadOhm?.value ?? 0,
    leastVolts: rules.leastVolts.value,
  });
  if (!left.ok) return { ...base, value: null, verdict: "unknown", ...cautions(left.why) };
  const least = left.value;
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
