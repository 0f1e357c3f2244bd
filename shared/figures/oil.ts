import { preheatOf } from "../checks/preheat.ts";
import { type Engine, plain } from "../engine/life.ts";
import { oilLimitsAt } from "../models/oil/oilBands.ts";
import { viscosityAt, viscosityLine } from "../models/oil/viscosity.ts";
import { inUnit } from "../models/units.ts";
import type { Quantity } from "../protocol/quantity.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import { airTemperature } from "../weather/air.ts";
import { cautions, type Figure, type FigureInput, ofType, ofTypeData, read } from "./figure.ts";
import { airInput, TEMPERATURE_NOT_READ } from "./temperature.ts";

/** Returns the seconds left to the first indication and to normal pressure; null unless the engine has just caught. */
export function oilTimers(state: SessionState, engine: number, now: number): Figure[] {
  const e = engineOf(state, engine);
  const life = e && plain(e.life);
  if (life?.is !== "caught") return [];
  const limits = oilLimitsAt(state.type.oil, airTemperature(state));
  const pressure = read("oil pressure", e?.readings.oilPressure ?? null);
  const timer = (key: "firstIndication" | "normal", dueAt: number, done: boolean): Figure => ({
    id: `oil.${key}:${engine}`,
    words: `oil.${key}`,
    value: Math.max(0, (dueAt - now) / 1000),
    unit: "s",
    verdict: done ? "good" : now > dueAt ? "bad" : "none",
    inputs: [
      pressure,
      ofType("pressure", limits[key].atLeast),
      { ...ofType("within", limits[key].within), value: (dueAt - life.since) / 1000 },
      {
        name: "caught",
        value: (now - life.since) / 1000,
        unit: "s",
        source: "reported by the cockpit",
        at: life.since,
      },
      airInput(state),
    ],
    equation: "left = limit - (now - caught); only a reading shows it",
    source: "the type's limits by the band of the air's temperature",
    ...cautions(limits.assumed && TEMPERATURE_NOT_READ),
  });
  return [
    timer("firstIndication", life.firstDueAt, life.firstOilAt !== null),
    timer("normal", life.normalDueAt, false),
  ];
}

/**
 * Returns the oil's viscosity now: by its own temperature if that was read, else by the air's for an engine that stood.
 */
export function oilViscosity(state: SessionState, engine: number): Figure | null {
  const { grade, mostViscous } = state.type.oil;
  const e = engineOf(state, engine);
  if (!grade || !e) return null;
  const own = oilTemperature(e);
  const temperature = own ?? airTemperature(state);
  const base = {
    id: `oilViscosity:${engine}`,
    words: "oilViscosity",
    unit: "mm2/s" as const,
    equation: "log10 log10 (v + 0.7) = A - B log10 T",
    source: "ASTM D341 (Walther) through the oil's two points",
    inputs: [
      own ? read("oil temperature", e.readings.oilTemp ?? null) : airInput(state),
      ...grade.points.map((p) =>
        ofTypeData(`${grade.name} at ${p.degC} degC`, p.mm2s, grade.source, "mm2/s"),
      ),
      ...(mostViscous ? [ofType("too thick above", mostViscous)] : []),
    ],
  };
  if (!temperature) {
    return {
      ...base,
      value: null,
      verdict: "unknown",
      ...cautions("Neither oil nor air temperature has been read."),
    };
  }
  const line = viscosityLine(...grade.points);
  const got = line.ok ? viscosityAt(line.value, inUnit(temperature, "degC")) : line;
  if (!got.ok) return { ...base, value: null, verdict: "unknown", ...cautions(got.why) };
  const { mm2s, extrapolated } = got.value;
  return {
    ...base,
    value: mm2s,
    verdict: !mostViscous ? "none" : mm2s > mostViscous.value ? "bad" : "good",
    ...cautions(
      extrapolated && "Below 0 degC the line is extrapolated: wax and yield leave it.",
      !own && "By the air's temperature: oil that stood long enough is as cold.",
    ),
  };
}

function oilTemperature(engine: Engine): Quantity | null {
  return engine.readings.oilTemp ?? null;
}

/** Returns whether the engine must be heated before its start, and whether that is recorded as done. */
export function preheatFigure(state: SessionState, engine: number, now: number): Figure | null {
  const rule = state.type.oil.preheat;
  const e = engineOf(state, engine);
  if (!rule || !e) return null;
  const need = preheatOf(state, e, now);
  const check = state.checks[rule.check];
  const stood: FigureInput = {
    name: "stood",
    value: e.lastRanAt === null ? null : (now - e.lastRanAt) / 3_600_000,
    unit: "h",
    source: e.lastRanAt === null ? "nobody knows: it counts as long enough" : "last ran",
    at: e.lastRanAt,
  };
  const done = check?.good === true;
  return {
    id: `preheat:${engine}`,
    words: need === "required" && done ? "preheat.done" : `preheat.${need}`,
    value: need,
    unit: null,
    verdict: need === "notKnown" ? "unknown" : need === "notRequired" || done ? "good" : "bad",
    inputs: [
      airInput(state),
      stood,
      ofType("required below", rule.below),
      ...(rule.soak ? [ofType("after standing", rule.soak)] : []),
      {
        name: "preheated",
        value: check ? (check.good ? "yes" : "no") : null,
        unit: null,
        source: check ? `recorded by ${check.name}` : "nobody has recorded it",
        at: check?.at ?? null,
      },
    ],
    equation: "required when the air is colder than the limit, for the soak where one is given",
    source: "the type's rule",
    ...cautions(
      need === "required" && "Warm cylinders over cold oil are no answer: feel sump, lines and cooler.",
    ),
  };
}
