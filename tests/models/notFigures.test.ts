import { describe, expect, it } from "vitest";
import { viscosityAt } from "../../shared/models/oil/viscosity.ts";
import type { Outcome } from "../../shared/models/outcome.ts";
import { autocorrelation } from "../../shared/models/statistics/autocorrelation.ts";
import { cusumChart } from "../../shared/models/statistics/cusum.ts";
import { ewmaChart } from "../../shared/models/statistics/ewma.ts";
import { individualsChart } from "../../shared/models/statistics/individuals.ts";
import { regressionLine } from "../../shared/models/statistics/regression.ts";
import { theilSenLine } from "../../shared/models/statistics/theilSen.ts";
import {
  hoursLeft,
  noiseDose,
  OSHA_PERMISSIBLE,
  permittedHours,
  timeWeightedAverage,
} from "../../shared/models/weather/noise.ts";
import { windChillC, windChillF } from "../../shared/models/weather/windChill.ts";

/** A model with good input that one figure replaces, and what its refusal must name. */
type Case = [what: string, model: (figure: number) => Outcome<unknown>, good: number, names: string[]];

const plan = { target: 0, slack: 0.5, decision: 4 };
const ewma = { target: 0, sd: 1, lambda: 0.2, width: 3 };
const pairs = (x: number, y: number) => [
  { x: 1, y: 2 },
  { x: 2, y: 3 },
  { x, y },
];
const oil = { a: 8.87, b: 3.407, zeroCelsius: 273.15 };
const rule = OSHA_PERMISSIBLE;

const CASES: readonly Case[] = [
  ["individuals chart", (x) => individualsChart([1, x, 3]), 2, ["value 2"]],
  ["CUSUM, a value", (x) => cusumChart([1, 2, x], plan), 2, ["value 3"]],
  ["CUSUM, slack", (slack) => cusumChart([1, 2], { ...plan, slack }), 0.5, ["slack"]],
  ["CUSUM, interval", (decision) => cusumChart([1, 2], { ...plan, decision }), 4, ["decision interval"]],
  ["CUSUM, target", (target) => cusumChart([1, 2], { ...plan, target }), 1, ["target"]],
  ["EWMA, a value", (x) => ewmaChart([x, 2], ewma), 1, ["value 1"]],
  ["EWMA, target", (target) => ewmaChart([1, 2], { ...ewma, target }), 1, ["target"]],
  ["autocorrelation", (x) => autocorrelation([1, 2, x, 3]), 2.5, ["value 3"]],
  ["regression, x", (x) => regressionLine(pairs(x, 5)), 3, ["x 3"]],
  ["regression, y", (y) => regressionLine(pairs(3, y)), 5, ["y 3"]],
  ["Theil-Sen, x", (x) => theilSenLine(pairs(x, 5)), 3, ["x 3"]],
  ["Theil-Sen, y", (y) => theilSenLine(pairs(3, y)), 5, ["y 3"]],
  ["noise dose, level", (dBA) => noiseDose([{ dBA, hours: 1 }], rule), 95, ["sound level", "dBA"]],
  ["noise dose, time", (hours) => noiseDose([{ dBA: 95, hours }], rule), 1, ["time", " h"]],
  ["noise dose, rule", (exchangeDb) => noiseDose([], { ...rule, exchangeDb }), 5, ["exchange", "dBA"]],
  ["permitted hours", (dBA) => permittedHours(dBA, rule), 95, ["sound level", "dBA"]],
  ["average of a dose", (dose) => timeWeightedAverage(dose, rule), 50, ["dose", "percent"]],
  ["hours left", (dBA) => hoursLeft([], dBA, 100, rule), 95, ["sound level", "dBA"]],
  ["viscosity, temperature", (degC) => viscosityAt(oil, degC), 40, ["oil temperature", "degC"]],
  ["viscosity, line A", (a) => viscosityAt({ ...oil, a }, 40), 8.87, ["A of the oil's line"]],
  ["viscosity, line B", (b) => viscosityAt({ ...oil, b }, 40), 3.407, ["B of the oil's line"]],
  [
    "viscosity, zero Celsius",
    (zeroCelsius) => viscosityAt({ ...oil, zeroCelsius }, 40),
    273.15,
    ["zero Celsius", "K"],
  ],
  ["wind chill, temperature", (t) => windChillC(t, 20), -10, ["degC"]],
  ["wind chill, wind", (v) => windChillC(-10, v), 20, ["km/h"]],
  ["wind chill in degF, temperature", (t) => windChillF(t, 20), 0, ["degF"]],
  ["wind chill in degF, wind", (v) => windChillF(0, v), 20, ["mph"]],
];

describe("input that is no figure", () => {
  it.each(CASES)("[MOD-36] %s: NaN and infinities are refused by name and unit", (_, model, good, names) => {
    expect(model(good).ok).toBe(true);
    for (const figure of [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]) {
      const got = model(figure);
      expect(got.ok).toBe(false);
      for (const name of names) expect(got.ok ? "" : got.why).toContain(name);
    }
  });

  it.each([
    ["noise level", () => noiseDose([{ dBA: -1, hours: 1 }], rule)],
    ["noise time", () => noiseDose([{ dBA: 95, hours: -1 }], rule)],
    ["dose", () => timeWeightedAverage(-1, rule)],
    ["slack", () => cusumChart([1], { ...plan, slack: -0.1 })],
    ["decision interval", () => cusumChart([1], { ...plan, decision: -1 })],
    ["slope of an oil", () => viscosityAt({ ...oil, b: -3 }, 40)],
  ] as const)("[MOD-36] a negative %s is refused", (_, model) => {
    expect(model().ok).toBe(false);
  });
});
