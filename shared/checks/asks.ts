import { type Ask, ask, type Choice, choice } from "../asks/ask.ts";
import { CHECK_OF } from "../conditions/checkOf.ts";
import { fromCheck } from "../conditions/fromCheck.ts";
import { windWithinLimits } from "../conditions/windWithinLimits.ts";
import type { ConditionId } from "../protocol/conditions.ts";
import type { Post } from "../protocol/posts.ts";
import type { SessionState } from "../session/state.ts";
import type { Check } from "../types/schema.ts";
import { hydrometerOf } from "./gravity.ts";
import { checkApplies, preheatRequired } from "./preheat.ts";

/** Checks of this stage not yet good, and those a condition stands on that have aged while starting. */
export function checks(state: SessionState, post: Post, now: number): Ask[] {
  const due = state.type.checks
    .filter((c) => c.post === post && (post !== "groundPower" || state.powerSource === "groundPower"))
    .filter((c) => isDue(state, c, now))
    .map((c) => checkAsk(c));
  return [...due, ...weather(state, post, now)];
}

function isDue(state: SessionState, check: Check, now: number): boolean {
  if (check.stage === state.stage && state.checks[check.id]?.good !== true) {
    // A hydrometer says nothing until its electrolyte's temperature is known.
    const warm = hydrometerOf(state, check.id)?.gravity?.temperature;
    if (warm !== undefined && state.checks[warm]?.good !== true) return false;
    return checkApplies(state, check.id, now);
  }
  // Found out late that it is needed: still asked for, as advice, before the engine is asked for.
  if (check.id === state.type.oil.preheat?.check) return preheatWanted(state, check, now);
  if (check.id === "generatorsCarry") return generatorsWanted(state, now);
  if (check.id === "cartOutputOff") return cartOffWanted(state, now);
  if (state.stage !== "starting") return false;
  const condition = Object.entries(CHECK_OF).find(([, id]) => id === check.id)?.[0] as
    | ConditionId
    | undefined;
  if (condition !== "areaChecked" && condition !== "fuellingClear") return false;
  if (!state.type.conditions.includes(condition)) return false;
  return fromCheck(state, check.id, state.type.timing.area.value, now).is !== "yes";
}

function preheatWanted(state: SessionState, check: Check, now: number): boolean {
  const late = state.stage === "starting" && state.checks[check.id]?.good !== true;
  return late && preheatRequired(state, now);
}

function fresh(state: SessionState, check: string, now: number): boolean {
  return fromCheck(state, check, state.type.timing.groundPower.value, now).is === "yes";
}

/** With every engine stable and ground power on, the generators must be seen to carry before it goes. */
function generatorsWanted(state: SessionState, now: number): boolean {
  if (!state.type.conditions.includes("generatorsCarry") || state.groundPower.is !== "on") return false;
  const stable = state.order.every((n) => state.engines[n - 1]?.life.is === "stable");
  return stable && !fresh(state, "generatorsCarry", now);
}

function cartOffWanted(state: SessionState, now: number): boolean {
  if (!state.type.conditions.includes("cartOutputOff") || state.groundPower.is === "on") return false;
  const before = state.stage === "powerUp" || state.stage === "groundPower";
  // A plug pulled while engines are still to be started goes back in only with the output off again.
  const again =
    state.stage === "starting" &&
    state.powerSource === "groundPower" &&
    state.order.some((n) => state.engines[n - 1]?.life.is !== "stable");
  return (before || again) && !fresh(state, "cartOutputOff", now);
}

function checkAsk(check: Check): Ask {
  const draft = { type: "recordCheck", check: check.id } as const;
  const choices: Choice[] = check.range
    ? [choice("read", "yes", draft, { is: "figure", field: "reading", unit: check.range.unit })]
    : [choice("good", "yes", { ...draft, good: true }), choice("notGood", "no", { ...draft, good: false })];
  return ask({ key: `check:${check.id}`, say: "check", weight: 3, detail: check.words, choices });
}

function weather(state: SessionState, post: Post, now: number): Ask[] {
  if (post !== "supervisor" || !state.type.conditions.includes("windWithinLimits")) return [];
  const wanted = state.stage === "groundPower" || state.stage === "starting";
  if (!wanted || windWithinLimits.find(state, 0, now).is === "yes") return [];
  const draft = { type: "recordWeather", windKt: 0 } as const;
  return [
    ask({
      key: "weather",
      say: "weather",
      weight: 3,
      choices: [choice("read", "yes", draft, { is: "weather" })],
    }),
  ];
}
