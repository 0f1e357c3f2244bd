import { convert } from "../models/units.ts";
import type { Unit } from "../protocol/quantity.ts";
import type { Fault } from "./fault.ts";
import { faultText } from "./faultText.ts";
import type { AircraftType, Check, Gauge } from "./schema.ts";

/** Reports gauges and ranges of checks whose figures contradict each other or have a unit of the wrong kind. */
export function gaugeChecks(type: AircraftType, fault: Fault): void {
  type.gauges.forEach((gauge, i) => {
    const path = `gauges.${i}`;
    scale(gauge, path, fault);
    marks(gauge, path, fault);
    const kind = KINDS[gauge.id];
    if (kind) unitOfKind(kind, gauge.unit, `${path}.unit`, fault);
  });
  type.checks.forEach((check, i) => {
    range(check, `checks.${i}.range`, fault);
  });
  warmUp(type, fault);
  measured(type, fault);
  const { atLeast } = type.brakePressure;
  unitOfKind("pressure", atLeast.unit, "brakePressure.atLeast.unit", fault);
  if (atLeast.value <= 0) fault("brakePressure.atLeast", faultText("notPositive", atLeast.value));
}

type Kind = "pressure" | "temperature" | "V" | "rpm";

/** The quantity that each gauge known by its id measures. Other gauges may read anything. */
const KINDS: Readonly<Record<string, Kind>> = {
  oilPressure: "pressure",
  oilTemp: "temperature",
  headTemp: "temperature",
  fuelPressure: "pressure",
  manifold: "pressure",
  suction: "pressure",
  hydraulic: "pressure",
  rpm: "rpm",
  busVolts: "V",
};

const isA = (unit: Unit, like: Unit) => convert({ value: 1, unit }, like).ok;

/** Reports a unit that does not measure what its figure is about. */
export function unitOfKind(kind: Kind, unit: Unit, path: string, fault: Fault): void {
  switch (kind) {
    case "pressure":
      if (!isA(unit, "psi")) fault(path, faultText("notPressure", unit));
      return;
    case "temperature":
      if (!isA(unit, "degC")) fault(path, faultText("notTemperature", unit));
      return;
    case "V":
    case "rpm":
      if (unit !== kind) fault(path, faultText("notUnit", kind, unit));
      return;
    default:
      kind satisfies never;
  }
}

function scale({ scale: { from, to, step } }: Gauge, path: string, fault: Fault): void {
  if (from >= to) fault(`${path}.scale`, faultText("scaleReversed", from, to));
  else if (step > to - from) fault(`${path}.scale.step`, faultText("stepTooLarge", step, to - from));
}

const MARKS = ["min", "normalLow", "normalHigh", "max"] as const;

function marks(gauge: Gauge, path: string, fault: Fault): void {
  const { min, normalLow, normalHigh, max } = gauge;
  const { from, to } = gauge.scale;
  for (const mark of MARKS) {
    const value = gauge[mark];
    if (value !== undefined && from < to && (value < from || value > to))
      fault(`${path}.${mark}`, faultText("offScale", value, from, to));
  }
  if (above(min, max)) fault(`${path}.min`, faultText("leastAboveMost", min ?? 0, max ?? 0));
  if (above(normalLow, normalHigh))
    fault(`${path}.normalLow`, faultText("normalReversed", normalLow ?? 0, normalHigh ?? 0));
  for (const key of ["normalLow", "normalHigh"] as const) {
    const value = gauge[key];
    if (above(min, value)) fault(`${path}.${key}`, faultText("normalBelowLeast", value ?? 0, min ?? 0));
    if (above(value, max)) fault(`${path}.${key}`, faultText("normalAboveMost", value ?? 0, max ?? 0));
  }
}

/** Returns true if both are given and the first is above the second. */
const above = (a: number | undefined, b: number | undefined) => a !== undefined && b !== undefined && a > b;

function range({ range: given }: Check, path: string, fault: Fault): void {
  if (given && above(given.min, given.max))
    fault(`${path}.min`, faultText("leastAboveMost", given.min ?? 0, given.max ?? 0));
}

/** Reports gates of the warm-up that their gauge cannot show, or that lie above what it allows. */
function warmUp({ warmUp: gates, gauges }: AircraftType, fault: Fault): void {
  const byId = new Map(gauges.map((g) => [g.id, g]));
  gates.forEach((gate, i) => {
    const gauge = byId.get(gate.gauge);
    if (!gauge) return;
    const { from, to } = gauge.scale;
    const [path, value] =
      "riseOf" in gate
        ? [`warmUp.${i}.riseOf`, gate.riseOf.value]
        : [`warmUp.${i}.atLeast`, gate.atLeast.value];
    if ("riseOf" in gate) {
      if (value <= 0) fault(path, faultText("notPositive", value));
      if (value > to - from) fault(path, faultText("riseTooLarge", value, to - from));
      return;
    }
    if (value < from || value > to) fault(path, faultText("gateOffScale", value, from, to));
    else if (above(value, gauge.max)) fault(path, faultText("gateAboveMost", value, gauge.max ?? 0));
  });
}

/** Reports a start that no gauge can measure. */
function measured({ measured: rules, gauges }: AircraftType, fault: Fault): void {
  if (!rules) return;
  const bus = gauges.find((g) => g.id === "busVolts" && !g.perEngine);
  const { value } = rules.starterBelow;
  if (!bus) fault("measured", "a busVolts gauge of the aircraft is needed");
  else if (value < bus.scale.from || value > bus.scale.to)
    fault("measured.starterBelow", faultText("offScale", value, bus.scale.from, bus.scale.to));
}
