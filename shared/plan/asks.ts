import { type Ask, ask, choice } from "../asks/ask.ts";
import { isTurning } from "../engine/life.ts";
import { inboardEngines } from "../models/inboard.ts";
import { stageAfter } from "../protocol/stages.ts";
import { purposeOf, type SessionState, stopOpen } from "../session/state.ts";
import { mayGoBack } from "./goingBack.ts";
import { missingFor } from "./requirements.ts";

/** Returns the supervisor's ask to report all clear to the cockpit, once the chocks are out. */
export function allClearAsk(state: SessionState): Ask[] {
  const open = state.signals.some((s) => s.kind === "allClear");
  if (state.stage !== "release" || state.chocks?.in !== false || state.allClearAt !== null || open) return [];
  if (stopOpen(state)) return [];
  return [
    ask({
      key: "allClear",
      say: "allClear",
      weight: 3,
      choices: [choice("allClear", "yes", { type: "send", kind: "allClear", channel: "panel" })],
    }),
  ];
}

export function nextStage(state: SessionState, now: number): Ask[] {
  const to = stageAfter(state.stage, purposeOf(state));
  if (to === null || stopOpen(state) || missingFor(state, now).length > 0) return [];
  return [
    ask({
      key: `stage:${to}`,
      say: state.returning && to === "closed" ? "advance.stopped" : `advance.${to}`,
      weight: 4,
      choices: [choice("advance", "yes", { type: "advance", to })],
    }),
  ];
}

/** Returns the ask to start an engine again that quit; none for engines that stand still for the chocks alone. */
export function goBack(state: SessionState): Ask[] {
  if (!mayGoBack(state) || stopOpen(state) || stoppedForChocks(state)) return [];
  const back = choice("goBack", "plain", { type: "advance", to: "starting" });
  return [ask({ key: "goBack", say: "goBack", weight: 4, choices: [back] })];
}

function stoppedForChocks({ stage, type, engines, order }: SessionState): boolean {
  if (stage !== "release" || !type.conditions.includes("inboardStopped")) return false;
  const inboard = inboardEngines(type);
  return engines.every((e) => !order.includes(e.n) || isTurning(e.life) || inboard.includes(e.n));
}
