import { isTurning } from "../engine/life.ts";
import type { CheckRecord, SessionState } from "../session/state.ts";
import type { OilDilution } from "../types/stopping.ts";
import { cautions, type Figure, type FigureInput, notRead, ofType, read } from "./figure.ts";

const FORECAST = "least temperature of the night";

/**
 * Returns how long each engine's oil is diluted before it is stopped, by the night's forecast and the type's steps; null
 * outside a return and without the data. A night colder than every step has no time: its engines are preheated.
 */
export function oilDilutionFigure(state: SessionState): Figure | null {
  const rule = state.type.stopping?.oilDilution;
  if (!state.returning || !rule) return null;
  const said = state.checks[rule.check];
  const least = said?.reading;
  const turning = state.engines.filter((e) => isTurning(e.life));
  const base = {
    id: "oilDilution",
    unit: "s" as const,
    inputs: [forecastOf(said), ...inputsOf(rule)],
    equation: "of the type's steps that serve down to the forecast, the one with the least fuel",
    source:
      "the type's steps; TM 1-1500-204-23-3: 10 % for a night of -12 degC, never below 15 psi meanwhile",
  };
  if (!least) {
    const caution = "Give the least temperature that the night is expected to have, and where that is from.";
    return { ...base, words: "oilDilution", value: null, verdict: "unknown", caution };
  }
  if (least.value >= rule.noneFrom.value)
    return { ...base, words: "oilDilution.none", value: 0, verdict: "good" };
  const step = rule.steps.find((s) => s.downTo.value <= least.value);
  if (!step) {
    const caution = "Colder than every step of the type: heat the engines before the next start.";
    return { ...base, words: "oilDilution", value: null, verdict: "bad", caution };
  }
  const pressure = rule.leastPressure;
  const low = pressure && turning.some((e) => (e.readings.oilPressure?.value ?? Infinity) < pressure.value);
  return {
    ...base,
    words: "oilDilution",
    value: step.time.value,
    verdict: low ? "bad" : turning.length === 0 ? "caution" : "none",
    detail: `${step.percent.value} % of fuel, for each engine`,
    inputs: [
      ...base.inputs,
      ...(pressure
        ? turning.map(({ n, readings }) => read(`oil pressure, number ${n}`, readings.oilPressure ?? null))
        : []),
    ],
    ...cautions(
      turning.length === 0 &&
        "No engine turns any more, and oil mixes only while its engine runs: if it was not diluted, heat it before the next start.",
      low && "Oil pressure is below the least for diluting: do not dilute.",
      "The next start begins on thin oil: warm it as the type says before power.",
    ),
  };
}

function forecastOf(said: CheckRecord | undefined): FigureInput {
  if (!said?.reading) return notRead(FORECAST);
  const { value, unit } = said.reading;
  return { name: FORECAST, value, unit, source: `said by ${said.name}: ${said.note ?? ""}`, at: said.at };
}

function inputsOf({ noneFrom, steps, leastPressure }: OilDilution): FigureInput[] {
  return [
    ofType("no dilution from", noneFrom),
    ...steps.flatMap(({ downTo, percent, time }, i) => [
      ofType(`step ${i + 1} serves down to`, downTo),
      ofType(`step ${i + 1}, fuel in the oil`, percent),
      ofType(`step ${i + 1}, time`, time),
    ]),
    ...(leastPressure ? [ofType("least oil pressure while diluting", leastPressure)] : []),
  ];
}
