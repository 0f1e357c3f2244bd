import { hydrometerOf } from "../checks/gravity.ts";
import { postFor } from "../checks/post.ts";
import { oilReadLate } from "../engine/oilLate.ts";
import type { Action } from "../protocol/commands.ts";
import { engineOf, type SessionState } from "../session/state.ts";
import { accept, type Context, refuse, type Verdict } from "../session/verdict.ts";
import { isForecast } from "../stopping/forecast.ts";
import { inCheckRange } from "./inCheckRange.ts";
import { checkLowers, readingLowers } from "./lowers.ts";

type ReadingAction = Extract<Action, { type: "reading" }>;
type CheckAction = Extract<Action, { type: "recordCheck" }>;

/** Decides a person's reading of a gauge: the right gauge, engine and unit, on the instrument's scale. */
export function decideReading(state: SessionState, action: ReadingAction, context: Context): Verdict {
  const gauge = state.type.gauges.find((g) => g.id === action.gauge);
  if (!gauge) return refuse("noSuchGauge", { found: state.type.gauges.map((g) => g.id).join(", ") });
  const lowers = readingLowers(state, action);
  if (gauge.perEngine && context.post !== "cockpit" && !lowers) {
    return refuse("wrongPost", { posts: ["cockpit"] });
  }
  if (gauge.perEngine && action.engine === undefined) return refuse("engineNeeded");
  if (action.engine !== undefined && (!gauge.perEngine || !engineOf(state, action.engine))) {
    return refuse("noSuchEngine", { engine: action.engine, found: `1 to ${state.engines.length}` });
  }
  if (action.reading.unit !== gauge.unit) return refuse("wrongUnit", { found: gauge.unit });
  const { from, to } = gauge.scale;
  if (action.reading.value < from || action.reading.value > to) {
    return refuse("outOfRange", { found: `${from} to ${to} ${gauge.unit}` });
  }
  const engine = action.gauge === "oilPressure" ? engineOf(state, action.engine ?? 0) : undefined;
  return accept(action, ...(engine ? oilReadLate(state, engine, action.reading.value, context.now) : []));
}

/**
 * Decides a check of the type, from its own post or from the post that was asked instead. With a range the figure
 * decides; without one the person does.
 */
export function decideCheck(state: SessionState, action: CheckAction, context: Context): Verdict {
  const check = state.type.checks.find((c) => c.id === action.check);
  if (!check) return refuse("noSuchCheck", { found: state.type.checks.map((c) => c.id).join(", ") });
  const asked = postFor(state, check);
  if (context.post !== check.post && context.post !== asked && !checkLowers(state, action)) {
    return refuse("wrongPost", { posts: [asked] });
  }
  const note = action.note === undefined ? {} : { note: action.note };
  if (!check.range) {
    if (action.good === undefined) return refuse("missingFigure", { found: "good" });
    return accept({ type: "checked", check: check.id, good: action.good, ...note });
  }
  const reading = action.reading;
  if (!reading) return refuse("missingFigure", { found: check.range.unit });
  if (reading.unit !== check.range.unit) return refuse("wrongUnit", { found: check.range.unit });
  // A forecast of nobody is no forecast.
  if (isForecast(state.type, check.id) && action.note === undefined)
    return refuse("missingFigure", { found: "reason" });
  const judged = inCheckRange(state, check, reading);
  if (!judged?.ok) return unjudged(state, hydrometerOf(state, check.id)?.gravity?.temperature ?? check.id);
  return accept({ type: "checked", check: check.id, reading, good: judged.value, ...note });
}

/**
 * Refuses a hydrometer's reading without its electrolyte's temperature, or with a gravity that no acid has: it gives no
 * verdict.
 */
function unjudged(state: SessionState, temperature: string): Verdict {
  if (state.checks[temperature]?.good) return refuse("outOfRange", { found: "1 to 1.4" });
  return refuse("missingFigure", { found: state.type.checks.find((c) => c.id === temperature)?.words ?? "" });
}
