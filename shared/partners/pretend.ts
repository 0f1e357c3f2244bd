import { boundsOf } from "../card/judge.ts";
import { type Engine, plain } from "../engine/life.ts";
import type { RunUpItem } from "../protocol/commands.ts";
import type { Quantity, Unit } from "../protocol/quantity.ts";
import { itemGauge } from "../runUp/verdict.ts";
import type { Returning, SessionState } from "../session/state.ts";
import type { AircraftType, Gauge } from "../types/schema.ts";
import { between } from "./chance.ts";
import type { Script } from "./script.ts";

/** The smallest step that a person reads off an instrument of that unit. */
const STEPS: Partial<Record<Unit, number>> = { V: 0.1, inHg: 0.1, bar: 0.1, psi: 1, rpm: 10, count: 0.001 };

/** Temperature of an engine that stood all night. */
const COLD: Partial<Record<Unit, number>> = { degC: 12, degF: 54 };

/** Time constant with which oil pressure rises in an engine as new. Seconds. */
const OIL_RISE_S = 2;

/** Share of the starter's limit for which a partner cranks an engine that does not catch. */
const STARTER_SHARE = 0.85;

interface Range {
  min?: number | undefined;
  max?: number | undefined;
}

/** Returns a figure, rounded as a person would read it, unless rounding would leave the range. */
function figure(value: number, unit: Unit, { min = -Infinity, max = Infinity }: Range = {}): Quantity {
  const step = STEPS[unit] ?? 1;
  const rounded = Number((Math.round(value / step) * step).toFixed(3));
  return { value: rounded >= min && rounded <= max ? rounded : Math.min(max, Math.max(min, value)), unit };
}

/** Returns a figure well inside a range, either end of which may be open. */
function within({ min, max }: Range, draw: number): number {
  if (min !== undefined && max !== undefined) return min + (max - min) * (0.35 + 0.3 * draw);
  if (min !== undefined) return min + Math.abs(min) * (0.08 + 0.2 * draw);
  return (max ?? 1) - Math.abs(max ?? 1) * (0.1 + 0.15 * draw);
}

/** Returns a good figure for a check. */
export function checkFigure(range: Range & { unit: Unit }, script: Script, id: string): Quantity {
  return figure(within(range, between(0, 1, script.seed, "check", id)), range.unit, range);
}

/** Returns the cart's steady volts, slightly different at every reading. */
export function cartVolts(state: SessionState, script: Script): Quantity {
  const shown = script.world?.cartVolts();
  if (shown) return shown;
  const { steadyMin, steadyMax } = state.type.groundPower;
  const range = { min: steadyMin.value, max: steadyMax.value };
  return figure(within(range, between(0, 1, script.seed, "volts", state.seq)), steadyMin.unit, range);
}

/** Returns the cart's volts under a starter's load, between the starting minimum and the steady minimum. */
export function crankingVolts(state: SessionState, script: Script): Quantity {
  const shown = script.world?.crankingVolts();
  if (shown) return shown;
  const { steadyMin, starting } = state.type.groundPower;
  const range = { min: starting?.min.value ?? steadyMin.value, max: steadyMin.value };
  const fresh = within(range, between(0, 1, script.seed, "sag", state.seq));
  return figure(fresh - (script.wear?.sagV ?? 0), steadyMin.unit, range);
}

/** Returns a figure within the bounds of an item of the card; null where they are not known. */
export function cardFigure(
  state: SessionState,
  { item: id, engine }: { item: string; engine?: number | undefined },
  script: Script,
): Quantity | null {
  const item = state.type.card?.find((i) => i.id === id);
  const bounds = item && boundsOf(state, item);
  if (!item || !bounds?.ok) return null;
  // Before an engine turns, a partner's own hands bring the figure about.
  const gauge = "gauge" in item.kind && item.moment !== "beforeEngine" ? (item.kind.gauge ?? null) : null;
  const shown = gauge === null ? null : script.world?.gauge(engine ?? null, gauge);
  if (shown) return shown;
  const { min, max, unit } = bounds.value;
  const range = { min: min ?? undefined, max: max ?? undefined };
  return figure(within(range, between(0.2, 0.8, script.seed, "card", id)), unit);
}

/** Returns one figure of a good run-up. */
export function runUpFigure(state: SessionState, engine: Engine, item: RunUpItem, script: Script): Quantity {
  const rules = state.type.runUp;
  const unit = itemGauge(state.type, item)?.unit ?? "rpm";
  if (!rules) return figure(0, unit);
  const share = (name: string) => between(0.4, 0.7, script.seed, "runUp", name, engine.n);
  const speed = itemGauge(state.type, "powerRpm");
  // A magneto that is off, and a propeller that feathers, show at least one step of the gauge.
  const shown = Math.max(STEPS.rpm ?? 1, speed?.scale.step ?? 0);
  const drop = Math.max(shown, rules.magneto.maxDrop.value * share("drop"));
  const uneven = rules.magneto.maxDifference.value * 0.5 * share("uneven");
  const featherDrop = Math.max(shown, (rules.feather?.maxDrop.value ?? 0) * share("feather"));
  const rpm = Math.min(1700, ((speed?.scale.from ?? 0) + (speed?.max ?? speed?.scale.to ?? 1e4)) * 0.6);
  const values: Record<RunUpItem, number> = {
    powerManifold: 27 + rules.manifold.spread.value * (share("power") - 0.5),
    powerRpm: rpm,
    magnetoBoth: rpm,
    magnetoLeft: rpm - drop,
    magnetoRight: rpm - Math.max(shown, drop - uneven),
    featherBefore: rpm,
    featherLowest: rpm - featherDrop,
    featherAfter: rpm,
  };
  return figure(values[item], unit);
}

/** Returns the brake pressure after pumping by hand. */
export function brakePressure(state: SessionState, script: Script): Quantity {
  const shown = script.world?.brakePressure();
  if (shown) return shown;
  const { value, unit } = state.type.brakePressure.atLeast;
  const range = { min: value };
  return figure(within(range, between(0, 1, script.seed, "brakes", state.seq)), unit, range);
}

/** Returns when this crank ends, and whether the engine catches. About one attempt in sixteen fails. */
export function crankEnds(engine: Engine, script: Script): { at: number; caught: boolean } {
  const life = plain(engine.life);
  if (life.is !== "cranking") return { at: 0, caught: false };
  const limit = (life.limitAt - life.since) * STARTER_SHARE;
  if (script.world) {
    const caught = script.world.crank(engine.n) === "caught";
    return { at: caught ? life.since : life.since + limit, caught };
  }
  const words = ["crank", engine.n, engine.attempts] as const;
  const worn = script.wear?.crank?.[engine.n] ?? 1;
  const caught = between(0, 1, script.seed, "fires", ...words) >= 1 / 16;
  const turning = caught ? Math.min(limit, worn * between(5_500, 11_500, script.seed, ...words)) : limit;
  return { at: life.since + turning / script.pace, caught };
}

/** Returns the seconds since the starter was released, at the script's pace. */
function runFor(engine: Engine, now: number, script: Script): number {
  const off = engine.starter.at(-1)?.off;
  return off === null || off === undefined ? 0 : ((now - off) / 1000) * script.pace;
}

/** Returns oil pressure: it rises past the type's normal limit within seconds of the catch. */
function oilPressure(state: SessionState, engine: Engine, now: number, script: Script): number {
  const gauge = state.type.gauges.find((g) => g.id === "oilPressure");
  const high = gauge?.normalHigh ?? gauge?.max ?? Number.POSITIVE_INFINITY;
  const risen = state.type.oil.normal.atLeast.value * between(2, 3, script.seed, "oil", engine.n);
  const rise = script.wear?.oilS?.[engine.n] ?? OIL_RISE_S;
  return Math.min(high, risen * (1 - Math.exp(-runFor(engine, now, script) / rise)));
}

/** Returns a cylinder's figure at idle: from above what the cool-down allows to well below it, within some minutes. */
function coolingFigure(
  { coolingSince }: Returning,
  { n }: Engine,
  allowed: number,
  now: number,
  script: Script,
): number {
  const idled = coolingSince === null ? 0 : ((now - coolingSince) / 1000) * script.pace;
  const left = Math.exp(-idled / between(60, 90, script.seed, "cools", n));
  return allowed * (0.9 + 0.25 * left);
}

/** Returns a gauge's figure while the engine warms up: from cold past its gate within a few minutes. */
export function gaugeFigure(
  state: SessionState,
  engine: Engine | undefined,
  gauge: string,
  now: number,
  script: Script,
): Quantity {
  const gauged = state.type.gauges.find((g) => g.id === gauge);
  if (!gauged) return figure(1, "count");
  const shown = script.world?.gauge(engine?.n ?? null, gauge);
  if (shown) return shown;
  const { unit, scale } = gauged;
  const range = { min: scale.from, max: Math.min(scale.to, gauged.max ?? scale.to) };
  const cooled = state.type.stopping?.coolDown?.gauges.find((g) => g.gauge === gauge);
  if (state.returning && cooled && engine)
    return figure(coolingFigure(state.returning, engine, cooled.atMost.value, now, script), unit, range);
  if (gauge === "oilPressure" && engine) return figure(oilPressure(state, engine, now, script), unit, range);
  const gates = state.type.warmUp.filter((w) => w.gauge === gauge);
  if (gates.length === 0 && hasMarks(gauged)) return markedFigure(gauged, script, engine?.n ?? 0);
  // A run-up judges the gauge's least too.
  const asked = gates.map((w) => ("atLeast" in w ? w.atLeast.value : range.max));
  const gate = Math.max(...asked, gauged.min ?? scale.from);
  const cold = Math.max(scale.from, COLD[unit] ?? gate / 2);
  if (!engine) return figure(gate, unit, range);
  const warmed = 1 - Math.exp(-runFor(engine, now, script) / between(60, 90, script.seed, gauge, engine.n));
  const aim = gate + 0.15 * Math.abs(gate);
  return figure(Math.min(range.max, cold + (aim - cold) * warmed), unit, range);
}

function hasMarks({ min, normalLow, normalHigh, max }: Gauge): boolean {
  return (min ?? normalLow) !== undefined && (normalHigh ?? max) !== undefined;
}

/** Returns a figure within the gauge's marks, slightly different per engine. */
function markedFigure(gauge: Gauge, script: Script, n: number): Quantity {
  const range = { min: gauge.normalLow ?? gauge.min, max: gauge.normalHigh ?? gauge.max };
  return figure(within(range, between(0, 1, script.seed, "gauge", gauge.id, n)), gauge.unit, range);
}

/** Returns weather with a light wind, within the type's limits from whichever side it comes. */
export function breeze(
  { max, tailMax = max, crossMax = max }: AircraftType["wind"],
  script: Script,
): { windKt: number; gustKt: number; fromDeg: number; temperatureC: number; qnhHpa: number } {
  const draw = (from: number, to: number, what: string) => Math.round(between(from, to, script.seed, what));
  const windKt = Math.round(between(0.1, 0.3, script.seed, "wind") * max.value);
  const most = Math.floor(Math.min(max.value, tailMax.value, crossMax.value));
  return {
    windKt: Math.min(windKt, most - 1),
    gustKt: Math.min(windKt + 3, most),
    fromDeg: draw(0, 359, "from"),
    temperatureC: script.wear?.airC ?? draw(8, 22, "air"),
    qnhHpa: draw(1002, 1026, "qnh"),
  };
}
