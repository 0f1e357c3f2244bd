import { bladesDue } from "../models/bladeCount.ts";
import { bladeRuleOf } from "../models/bladeRules.ts";
import { hottestOnLadder } from "../models/ladderHeat.ts";
import { viscosityLine } from "../models/oil/viscosity.ts";
import { bandFor, bandsBelow } from "../models/temperatureBand.ts";
import { convert } from "../models/units.ts";
import type { Fault } from "./fault.ts";
import { faultText } from "./faultText.ts";
import type { Limit } from "./limit.ts";
import type { AircraftType, Gauge } from "./schema.ts";
import type { StarterRules } from "./starter.ts";

/** Checks on starter, oil, blades, warm-up and run-up that the schema cannot express. */
export function engineChecks(type: AircraftType, fault: Fault): void {
  starter(type, fault);
  prime(type, fault);
  oil(type, fault);
  blades(type, fault);
  runUp(type, fault);
}

function starter({ starter: rules }: AircraftType, fault: Fault): void {
  rising(rules, "starter.colder", fault);
  for (const [i, band] of [rules, ...(rules.colder ?? [])].entries()) {
    const path = i === 0 ? "starter" : `starter.colder.${i - 1}`;
    const longest = Math.max(...band.ladder.map((rung) => rung.rest.value));
    if (band.resetAfter.value < longest) {
      fault(`${path}.resetAfter`, `must not be shorter than the longest rest, ${longest} s`);
    }
    ladderHeat(rules.heat, band, path, fault);
  }
  const heat = rules.heat;
  if (heat && heat.coolTo.value >= heat.most.value) {
    fault("starter.heat.coolTo", "the heat to cool to must be below the most");
  }
}

function prime({ prime: rules, gauges }: AircraftType, fault: Fault): void {
  if (!rules) return;
  rising(rules, "prime.colder", fault);
  const { gauge: id, amount } = rules;
  const gauge = gauges.find((g) => g.id === id);
  const temperature = gauge && convert({ value: 0, unit: gauge.unit }, "degC").ok && gauge.perEngine;
  if (id !== undefined && !temperature) fault("prime.gauge", faultText("primeGauge", id));
  for (const [i, band] of (rules.colder ?? []).entries())
    if (band.amount.unit !== amount.unit)
      fault(`prime.colder.${i}.amount.unit`, faultText("notUnit", amount.unit, band.amount.unit));
  if (rules.hot && rules.hot.amount.unit !== amount.unit)
    fault("prime.hot.amount.unit", faultText("notUnit", amount.unit, rules.hot.amount.unit));
}

/** Reports a ladder that permits engagements which heat the starter above the type's own most. */
function ladderHeat(
  heat: StarterRules["heat"],
  { ladder, resetAfter }: Pick<StarterRules, "ladder" | "resetAfter">,
  path: string,
  fault: Fault,
): void {
  if (!heat) return;
  const model = { steady: heat.steady.value, tauOn: heat.tauOn.value, tauOff: heat.tauOff.value };
  const steps = ladder.map(({ onMax, rest }) => ({ on: onMax.value, rest: rest.value }));
  const hottest = hottestOnLadder(model, { steps, reset: resetAfter.value });
  if (!hottest.ok) fault("starter.heat", hottest.why);
  else if (hottest.value > heat.most.value)
    fault(`${path}.ladder`, faultText("ladderTooHot", Math.ceil(hottest.value), heat.most.value));
}

/**
 * Least seconds in which a person can look at a gauge and say what it reads. The project chose it, below the shortest
 * published time: 5 s (airline operations 1946, 3033-8).
 */
const LEAST_LOOK = 3;

function oil({ oil: rules, gauges, checks }: AircraftType, fault: Fault): void {
  const gauge = gauges.find((g) => g.id === "oilPressure");
  rising(rules, "oil.colder", fault);
  for (const [i, band] of [rules, ...(rules.colder ?? [])].entries()) {
    const path = i === 0 ? "oil" : `oil.colder.${i - 1}`;
    for (const key of ["firstIndication", "normal"] as const) {
      if (gauge && band[key].atLeast.unit !== gauge.unit) {
        fault(`${path}.${key}.atLeast.unit`, `must be the gauge's unit, ${gauge.unit}`);
      } else if (gauge) reachable(gauge, band[key].atLeast.value, `${path}.${key}.atLeast`, fault);
    }
    for (const key of ["firstIndication", "normal"] as const) {
      const { value } = band[key].within;
      if (value < LEAST_LOOK) fault(`${path}.${key}.within`, faultText("tooShortToAct", value, LEAST_LOOK));
    }
    if (band.firstIndication.within.value > band.normal.within.value) {
      fault(path, "first indication cannot be due later than normal pressure");
    }
    if (band.firstIndication.atLeast.value > band.normal.atLeast.value) {
      fault(path, "first indication cannot be more than normal pressure");
    }
  }
  if (rules.grade) {
    const line = viscosityLine(...rules.grade.points);
    if (!line.ok) fault("oil.grade.points", line.why);
  }
  if (rules.mostViscous && !rules.grade) fault("oil.mostViscous", "needs the oil's grade");
  const check = rules.preheat?.check;
  if (check !== undefined && !checks.some((c) => c.id === check && !c.range)) {
    fault("oil.preheat.check", `needs a check without a figure of the id ${check}`);
  }
}

/** Reports a pressure that is off the gauge's scale, or above what the gauge calls normal. */
function reachable(gauge: Gauge, value: number, path: string, fault: Fault): void {
  const { from, to } = gauge.scale;
  const most = gauge.normalHigh ?? gauge.max;
  if (value <= 0) fault(path, faultText("notPositive", value));
  else if (value < from || value > to) fault(path, faultText("offScale", value, from, to));
  else if (most !== undefined && value > most) fault(path, faultText("pressureAboveNormal", value, most));
}

function blades({ bladeCount, propeller }: AircraftType, fault: Fault): void {
  const judged = bladesDue(bladeRuleOf(bladeCount).rule, propeller, null, null);
  if (!judged.ok) fault("bladeCount", judged.why);
  if (bladeCount.afterFailed) upToCheck(bladeCount.afterFailed.turn, "bladeCount.afterFailed.turn", fault);
  if (!("cases" in bladeCount)) return;
  bladeCount.cases.forEach(({ turn, bouts }, i) => {
    upToCheck(turn, `bladeCount.cases.${i}.turn`, fault);
    const sum = bouts?.reduce((a, b) => a + b, 0);
    const needed = "blades" in turn ? turn.blades : Math.ceil(turn.revolutions * propeller.blades - 1e-9);
    if (sum !== undefined && sum < needed) {
      fault(`bladeCount.cases.${i}.bouts`, `make ${sum} blades of the ${needed} asked for`);
    }
  });
}

function upToCheck(
  turn: NonNullable<AircraftType["bladeCount"]["afterFailed"]>["turn"],
  path: string,
  fault: Fault,
): void {
  const least = "blades" in turn ? turn.blades : turn.revolutions;
  if (turn.upTo !== undefined && turn.upTo < least) fault(`${path}.upTo`, `must not be below ${least}`);
}

function runUp({ runUp: rules, gauges }: AircraftType, fault: Fault): void {
  if (!rules) return;
  const named = [
    ["manifold.pressureGauge", rules.manifold.pressureGauge, "inHg"],
    ["manifold.speedGauge", rules.manifold.speedGauge, "rpm"],
  ] as const;
  for (const [path, id, unit] of named) {
    const gauge = gauges.find((g) => g.id === id);
    if (!gauge?.perEngine) fault(`runUp.${path}`, `no gauge ${id} for each engine`);
    else if (gauge.unit !== unit) fault(`runUp.${path}`, `${id} must be read in ${unit}`);
  }
  // A propeller that shows no drop did not feather, and a magneto without one was not switched off: the least drop that
  // the gauge shows must be allowed.
  const step = gauges.find((g) => g.id === rules.manifold.speedGauge)?.scale.step ?? 0;
  const drops = { magneto: rules.magneto.maxDrop, feather: rules.feather?.maxDrop };
  for (const [name, most] of Object.entries(drops))
    if (most && most.value < step)
      fault(`runUp.${name}.maxDrop`, faultText("dropTooSmall", most.value, step));
  if (new Set(rules.gauges).size !== rules.gauges.length) fault("runUp.gauges", "a gauge is named twice");
  rules.gauges.forEach((id, i) => {
    const gauge = gauges.find((g) => g.id === id);
    const marks = gauge && [gauge.min, gauge.normalLow, gauge.normalHigh, gauge.max];
    if (!marks) fault(`runUp.gauges.${i}`, `no gauge ${id}`);
    else if (marks.every((m) => m === undefined)) fault(`runUp.gauges.${i}`, `${id} has no mark to judge by`);
  });
}

/** Reports bands that do not rise, or whose ends are not temperatures. */
function rising(
  rules: { colder?: readonly { upTo: Limit }[] | undefined },
  path: string,
  fault: Fault,
): void {
  const top = (rules.colder ?? []).map((b) => convert(b.upTo, "degC")).findLast((t) => t.ok);
  if (!top?.ok) return;
  const judged = bandFor(bandsBelow(rules), top.value);
  if (!judged.ok) fault(path, judged.why);
}
