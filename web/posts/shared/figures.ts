import type { Choice } from "../../../shared/asks/ask.ts";
import { AS_READ } from "../../../shared/models/unitChoice.ts";
import type { Unit } from "../../../shared/protocol/quantity.ts";
import { itemGauge } from "../../../shared/session/runUp.ts";
import { engineOf, type SessionState } from "../../../shared/session/state.ts";
import type { Gauge } from "../../../shared/types/schema.ts";
import { say } from "../../../shared/words/en.ts";
import { written } from "../../../shared/words/quantity.ts";
import type { FigureSpec } from "../../ui/figureSpec.ts";
import { ago } from "../../ui/numbers.ts";

interface Before {
  value: number;
  unit: Unit;
  at: number | null;
}

/** The entry for a choice that needs a figure: its scale, its good band, and where it begins. Null when it needs none. */
export function figureSpec(state: SessionState, choice: Choice, now: number): FigureSpec | null {
  if (choice.need?.is !== "figure") return null;
  const { draft } = choice;
  if (draft.type === "reading") {
    const gauge = state.type.gauges.find((g) => g.id === draft.gauge);
    if (!gauge) return null;
    const held = draft.engine ? engineOf(state, draft.engine)?.readings : state.readings;
    const label = draft.engine ? `${gauge.name}, number ${draft.engine}` : gauge.name;
    return spec({
      label,
      gauge,
      ...goodOf(state, gauge, draft.engine),
      before: held?.[gauge.id] ?? null,
      now,
    });
  }
  if (draft.type === "recordRunUp") {
    const gauge = itemGauge(state.type, draft.item);
    if (!gauge) return null;
    const before = engineOf(state, draft.engine)?.runUp?.[draft.item] ?? null;
    const label = `Number ${draft.engine}: ${say.runUpItem(draft.item)}`;
    return spec({ label, gauge, low: null, high: gauge.max ?? null, before, now });
  }
  if (draft.type === "recordCheck") {
    const check = state.type.checks.find((c) => c.id === draft.check);
    if (!check?.range) return null;
    const { unit, min = null, max = null } = check.range;
    const before = state.checks[check.id];
    return spec({
      label: check.words,
      gauge: likeGauge(state, unit),
      unit,
      low: min,
      high: max,
      before: before?.reading ? { ...before.reading, at: before.at } : null,
      now,
    });
  }
  if (choice.need.field === "volts") {
    const { steadyMin, steadyMax } = state.type.groundPower;
    const power = state.groundPower;
    return spec({
      label: "Ground power volts",
      gauge: likeGauge(state, steadyMin.unit),
      unit: steadyMin.unit,
      low: steadyMin.value,
      high: steadyMax.value,
      before: power.is === "on" ? { ...power.volts, at: power.by.at } : null,
      now,
    });
  }
  const least = state.type.brakePressure.atLeast;
  const brakes = state.brakes;
  return spec({
    label: "Brake pressure",
    gauge: state.type.gauges.find((g) => g.unit === least.unit && /brake|hyd/i.test(g.id)) ?? null,
    unit: least.unit,
    low: least.value,
    high: null,
    before: brakes?.pressure ? { ...brakes.pressure, at: brakes.at } : null,
    now,
  });
}

function goodOf(state: SessionState, gauge: Gauge, engine: number | undefined) {
  const gate = state.type.warmUp.find((w) => w.gauge === gauge.id && "atLeast" in w);
  const warming = engine !== undefined && state.stage === "warmUp" && gate && "atLeast" in gate;
  const low = warming ? gate.atLeast.value : (gauge.normalLow ?? gauge.min ?? null);
  return { low, high: gauge.normalHigh ?? gauge.max ?? null };
}

/** A gauge that reads the same unit for the aircraft as a whole, for its scale. */
function likeGauge(state: SessionState, unit: Unit): Gauge | null {
  return state.type.gauges.find((g) => g.unit === unit && !g.perEngine) ?? null;
}

interface Parts {
  label: string;
  gauge: Gauge | null;
  unit?: Unit;
  low: number | null;
  high: number | null;
  before: Before | null;
  now: number;
}

function spec({ label, gauge, unit: given, low, high, before, now }: Parts): FigureSpec {
  const unit = given ?? gauge?.unit ?? "count";
  const middle = low !== null && high !== null ? (low + high) / 2 : (low ?? high ?? 0);
  // Without a gauge of that unit the scale is drawn around the good band.
  const to = gauge?.scale.to ?? niceAbove((high ?? middle) * 1.5);
  const step = gauge?.scale.step ?? niceBelow(to / 200);
  const start = before?.value ?? middle;
  const startWords =
    before?.at != null
      ? `Last: ${written(before, AS_READ, { step })}, ${ago(now - before.at)}`
      : "Not read yet. Touch the figure if it is so.";
  return {
    label,
    unit,
    from: gauge?.scale.from ?? 0,
    to,
    step,
    start,
    read: before !== null,
    startWords,
    low,
    high,
  };
}

function niceAbove(value: number): number {
  const tens = 10 ** Math.floor(Math.log10(Math.max(value, 1)));
  return Math.ceil(value / tens) * tens;
}

function niceBelow(value: number): number {
  const tens = 10 ** Math.floor(Math.log10(value));
  const lead = value / tens;
  return (lead >= 5 ? 5 : lead >= 2 ? 2 : 1) * tens;
}
