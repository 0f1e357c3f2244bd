import { type Offer, offer } from "../../../shared/asks/ask.ts";
import { boundsOf } from "../../../shared/card/judge.ts";
import { correctedGravity, hydrometerOf } from "../../../shared/checks/gravity.ts";
import { chargeFromGravity } from "../../../shared/models/electrical/battery.ts";
import { AS_READ } from "../../../shared/models/unitChoice.ts";
import { voltsBand } from "../../../shared/power/voltsBand.ts";
import type { Action } from "../../../shared/protocol/commands.ts";
import type { Unit } from "../../../shared/protocol/quantity.ts";
import { itemGauge } from "../../../shared/runUp/verdict.ts";
import { engineOf, type SessionState } from "../../../shared/session/state.ts";
import { isForecast } from "../../../shared/stopping/forecast.ts";
import type { BatteryData } from "../../../shared/types/electrical.ts";
import type { Gauge } from "../../../shared/types/schema.ts";
import { written } from "../../../shared/words/quantity.ts";
import type { FigureSpec } from "../../ui/figureSpec.ts";
import { ago } from "../../ui/numbers.ts";
import type { Words } from "../../words/catalogue.ts";
import type { Text } from "../../words/en/text.ts";

/**
 * Returns the choice to read once more the figure that an action reported; null for an action without one. Of a forecast
 * the source is asked again too.
 */
export function readAnew({ type }: SessionState, action: Action): Offer | null {
  const again = (draft: Offer["draft"], field: "volts" | "pressure" | "reading", unit: string) =>
    offer("plain", draft, { is: "figure", field, unit: unit as Unit });
  switch (action.type) {
    case "reading":
    case "recordRunUp": {
      const { reading, ...draft } = action;
      return again(draft, "reading", reading.unit);
    }
    case "recordCheck":
    case "answerCard": {
      const { reading, note: _note, ...draft } = action;
      if (reading && action.type === "recordCheck" && isForecast(type, action.check))
        return offer("plain", draft, { is: "forecast", unit: reading.unit as Unit });
      return reading ? again(draft, "reading", reading.unit) : null;
    }
    case "send": {
      const { volts, pressure, note: _note, ...draft } = action;
      if (action.seenFrom !== undefined) return null;
      if (volts) return again(draft, "volts", volts.unit);
      return pressure ? again(draft, "pressure", pressure.unit) : null;
    }
    default:
      return null;
  }
}

/** Returns the scale on which the least temperature of a night is entered, in whole degrees. */
const nights = (unit: Unit) => ({
  from: unit === "degF" ? -58 : -50,
  to: unit === "degF" ? 86 : 30,
  step: 1,
});

interface Before {
  value: number;
  unit: Unit;
  at: number | null;
}

/**
 * Returns the entry for a choice that needs a figure: scale, good band and start value. Null when the choice needs
 * none.
 */
export function figureSpec(state: SessionState, choice: Offer, now: number, words: Words): FigureSpec | null {
  const { say, text } = words;
  const { entry } = text;
  if (choice.need?.is !== "figure") return null;
  const { draft } = choice;
  if (draft.type === "reading") {
    const gauge = state.type.gauges.find((g) => g.id === draft.gauge);
    if (!gauge) return null;
    const held = draft.engine ? engineOf(state, draft.engine)?.readings : state.readings;
    const label = draft.engine ? entry.gaugeOf(gauge.name, draft.engine) : gauge.name;
    return spec({
      label,
      gauge,
      ...goodOf(state, gauge, draft.engine),
      before: held?.[gauge.id] ?? null,
      now,
      text,
    });
  }
  if (draft.type === "answerCard") return cardSpec(state, draft, now, text);
  if (draft.type === "recordRunUp") {
    const gauge = itemGauge(state.type, draft.item);
    if (!gauge) return null;
    const before = engineOf(state, draft.engine)?.runUp?.[draft.item] ?? null;
    const label = entry.itemOf(say.runUpItem(draft.item), draft.engine);
    return spec({ label, gauge, low: null, high: gauge.max ?? null, before, now, text });
  }
  if (draft.type === "recordCheck") {
    const check = state.type.checks.find((c) => c.id === draft.check);
    if (!check?.range) return null;
    const { unit, min = null, max = null } = check.range;
    const before = state.checks[check.id];
    const hydrometer = hydrometerOf(state, check.id);
    const shift = hydrometer ? shiftOf(state, hydrometer) : 0;
    const entered = spec({
      label: check.words,
      gauge: hydrometer
        ? { unit, scale: HYDROMETER }
        : isForecast(state.type, check.id)
          ? { unit, scale: nights(unit) }
          : likeGauge(state, unit),
      unit,
      low: min === null ? null : min - shift,
      high: max === null ? null : max - shift,
      before: before?.reading ? { ...before.reading, at: before.at } : null,
      now,
      text,
    });
    return hydrometer
      ? { ...entered, result: (read) => gravityWords(state, hydrometer, read, text) }
      : entered;
  }
  if (choice.need.field === "volts") {
    const { steadyMin } = state.type.groundPower;
    const [low, high] = voltsBand(state, draft.type === "send" ? draft.engine : undefined);
    const power = state.groundPower;
    return spec({
      label: entry.powerVolts,
      gauge: likeGauge(state, steadyMin.unit),
      unit: steadyMin.unit,
      low: low.value,
      high: high.value,
      before: power.is === "on" ? { ...power.volts, at: power.by.at } : null,
      now,
      text,
    });
  }
  const least = state.type.brakePressure.atLeast;
  const brakes = state.brakes;
  return spec({
    label: entry.brakePressure,
    gauge: state.type.gauges.find((g) => g.unit === least.unit && /brake|hyd/i.test(g.id)) ?? null,
    unit: least.unit,
    low: least.value,
    high: null,
    before: brakes?.pressure ? { ...brakes.pressure, at: brakes.at } : null,
    now,
    text,
  });
}

type AnswerCard = Extract<Action, { type: "answerCard" }>;

/** Returns the entry for a figure of the card: its gauge's scale, and the bounds of the item while they are known. */
function cardSpec(state: SessionState, draft: AnswerCard, now: number, text: Text): FigureSpec | null {
  const item = state.type.card?.find((i) => i.id === draft.item);
  const bounds = item && boundsOf(state, item);
  if (!item || !bounds?.ok || !("gauge" in item.kind)) return null;
  const { gauge: id } = item.kind;
  const gauge = state.type.gauges.find((g) => g.id === id);
  if (!gauge) return null;
  const held = gauge.perEngine && draft.engine ? engineOf(state, draft.engine)?.readings : state.readings;
  const label = draft.engine ? text.entry.gaugeOf(item.words, draft.engine) : item.words;
  const { min: low, max: high } = bounds.value;
  return spec({ label, gauge, low, high, before: held?.[gauge.id] ?? null, now, text });
}

/** A battery hydrometer's scale. Common practice, no source. */
const HYDROMETER = { from: 1.05, to: 1.35, step: 0.001 };

/** Returns the correction for the electrolyte's temperature: the type's range is for the gravity at 80 °F. */
function shiftOf(state: SessionState, battery: BatteryData): number {
  const at80F = correctedGravity(state, battery, 1.2);
  return at80F.ok ? at80F.value - 1.2 : 0;
}

/** Returns the corrected gravity and charge in words, for a hydrometer reading during entry. */
function gravityWords(state: SessionState, battery: BatteryData, read: number, { entry }: Text): string {
  const at80F = correctedGravity(state, battery, read);
  if (!at80F.ok) return entry.gravityWaits;
  const charge = chargeFromGravity(battery.cell, at80F.value);
  return entry.gravity(at80F.value.toFixed(3), charge.ok ? Math.round(charge.value * 100) : null);
}

function goodOf(state: SessionState, gauge: Gauge, engine: number | undefined) {
  const gate = state.type.warmUp.find((w) => w.gauge === gauge.id && "atLeast" in w);
  const warming = engine !== undefined && state.stage === "warmUp" && gate && "atLeast" in gate;
  const low = warming ? gate.atLeast.value : (gauge.normalLow ?? gauge.min ?? null);
  return { low, high: gauge.normalHigh ?? gauge.max ?? null };
}

/** Returns a gauge of the whole aircraft in the same unit, whose scale is used, or null. */
function likeGauge(state: SessionState, unit: Unit): Gauge | null {
  return state.type.gauges.find((g) => g.unit === unit && !g.perEngine) ?? null;
}

interface Parts {
  label: string;
  gauge: Pick<Gauge, "unit" | "scale"> | null;
  unit?: Unit;
  low: number | null;
  high: number | null;
  before: Before | null;
  now: number;
  text: Text;
}

function spec({ label, gauge, unit: given, low, high, before, now, text }: Parts): FigureSpec {
  const unit = given ?? gauge?.unit ?? "count";
  // Without a gauge of that unit, derive the scale from the good band.
  const from = gauge?.scale.from ?? 0;
  const to = gauge?.scale.to ?? niceAbove((high ?? low ?? 1) * 1.5);
  const step = gauge?.scale.step ?? niceBelow(to / 200);
  // The middle of the usual range, so that no limit is ever suggested.
  const start = before?.value ?? ((low ?? from) + (high ?? to)) / 2;
  const startWords =
    before?.at != null
      ? text.entry.last(written(before, AS_READ, { step }), ago(now - before.at, text))
      : text.entry.notRead;
  return {
    label,
    unit,
    from,
    to,
    step,
    start,
    before: before?.value ?? null,
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
