import { type Ask, ask, type Choice, choice, type Need } from "../asks/ask.ts";
import { fromCheck } from "../conditions/fromCheck.ts";
import { waitedFor } from "../conditions/renewal.ts";
import { windWithinLimits } from "../conditions/surroundings.ts";
import type { Post } from "../protocol/posts.ts";
import type { Unit } from "../protocol/quantity.ts";
import type { SessionState } from "../session/state.ts";
import { isForecast } from "../stopping/forecast.ts";
import type { Check } from "../types/schema.ts";
import { hydrometerOf } from "./gravity.ts";
import { inStart, standingOn } from "./inStart.ts";
import { postFor } from "./post.ts";
import { checkApplies, preheatRequired } from "./preheat.ts";

/**
 * Returns the asks for the checks of this stage that are not yet good, and while starting for those of a condition that
 * have aged.
 */
export function checks(state: SessionState, post: Post, now: number): Ask[] {
  const due = state.type.checks
    .filter((c) => postFor(state, c) === post && inStart(state, c))
    .flatMap((c) => {
      const waits = waitedForCheck(state, c, now);
      return isDue(state, c, waits, now) ? [checkAsk(state, c, waits)] : [];
    });
  return [...due, ...weather(state, post, now)];
}

function isDue(state: SessionState, check: Check, waits: number | null, now: number): boolean {
  if (check.stage === state.stage && state.checks[check.id]?.good !== true) {
    // A hydrometer's reading says nothing until its electrolyte's temperature is known.
    const warm = hydrometerOf(state, check.id)?.gravity?.temperature;
    if (warm !== undefined && state.checks[warm]?.good !== true) return false;
    return checkApplies(state, check.id, now);
  }
  // If the need becomes known late, the check is still asked for, as advice, before the engine is requested.
  if (check.id === state.type.oil.preheat?.check && preheatWanted(state, check, now)) return true;
  if (waits !== null) return true;
  return standingOn(state, check).some((c) => c.wanted(state) && fromCheck(state, c, now).is !== "yes");
}

/** Returns since when a requested engine waits for the check; null when none waits. */
function waitedForCheck(state: SessionState, check: Check, now: number): number | null {
  const waits = standingOn(state, check).flatMap((c) => waitedFor(state, c, now) ?? []);
  return waits.length === 0 ? null : Math.min(...waits);
}

function preheatWanted(state: SessionState, check: Check, now: number): boolean {
  const late = state.stage === "starting" && state.checks[check.id]?.good !== true;
  return late && preheatRequired(state, now);
}

function checkAsk({ type }: SessionState, check: Check, waits: number | null): Ask {
  const draft = { type: "recordCheck", check: check.id } as const;
  const choices: Choice[] = check.range
    ? [choice("read", "yes", draft, figureOf(check.range.unit, isForecast(type, check.id)))]
    : [choice("good", "yes", { ...draft, good: true }), choice("notGood", "no", { ...draft, good: false })];
  const detail = { is: "ofType", words: check.words } as const;
  const weight = waits === null ? 3 : 2;
  return ask({ key: `check:${check.id}`, say: "check", weight, since: waits, detail, choices });
}

function figureOf(unit: Unit, forecast: boolean): Need {
  return forecast ? { is: "forecast", unit } : { is: "figure", field: "reading", unit };
}

function weather(state: SessionState, post: Post, now: number): Ask[] {
  if (post !== "supervisor" || !state.type.conditions.includes("windWithinLimits")) return [];
  const wanted = state.stage === "groundPower" || state.stage === "starting";
  const waits = waitedFor(state, windWithinLimits, now);
  const found = windWithinLimits.find(state, 0, now);
  if (!wanted || (found.is === "yes" && waits === null)) return [];
  const draft = { type: "recordWeather", windKt: 0 } as const;
  return [
    ask({
      key: "weather",
      say: "weather",
      weight: waits === null ? 3 : 2,
      since: waits,
      choices: [choice("read", "yes", draft, { is: "weather" })],
    }),
  ];
}
