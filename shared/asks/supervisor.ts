import { findUnmet } from "../conditions/all.ts";
import { plain } from "../engine/life.ts";
import { mayGoBack } from "../plan/goingBack.ts";
import { missingFor } from "../plan/requirements.ts";
import { stageAfter } from "../protocol/stages.ts";
import { type SessionState, stopOpen } from "../session/state.ts";
import { type Ask, ask, choice } from "./ask.ts";

/** Permission, stages, and the ends of what others raised. */
export function askedOfSupervisor(state: SessionState, now: number): Ask[] {
  return [...clearances(state, now), ...allClear(state), ...nextStage(state, now), ...goBack(state)];
}

/** With a condition unmet there is no choice to clear: the ask names what is missing instead. */
function clearances(state: SessionState, now: number): Ask[] {
  return state.engines.flatMap((e) => {
    const life = plain(e.life);
    if (life.is !== "requested") return [];
    const unmet = findUnmet(state, e.n, now);
    const request = state.signals.find((s) => s.id === life.signal);
    const unable = choice("unable", "no", {
      type: "answer",
      signal: life.signal,
      answer: "unable",
      channel: "panel",
    });
    const clear = choice("clearToStart", "yes", {
      type: "send",
      kind: "clearToStart",
      engine: e.n,
      channel: "panel",
    });
    return [
      ask({
        key: `clear:${e.n}`,
        say: unmet.length === 0 ? "clearToStart" : "clearWaits",
        weight: 2,
        engine: e.n,
        signal: life.signal,
        from: "cockpit",
        since: life.since,
        dueAt: request?.dueAt ?? null,
        detail: unmet.length === 0 ? null : { is: "unmet", conditions: unmet.map((u) => u.id) },
        choices: unmet.length === 0 ? [clear, unable] : [unable],
      }),
    ];
  });
}

function allClear(state: SessionState): Ask[] {
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

function goBack(state: SessionState): Ask[] {
  if (!mayGoBack(state) || stopOpen(state)) return [];
  const back = choice("goBack", "plain", { type: "advance", to: "starting" });
  return [ask({ key: "goBack", say: "goBack", weight: 4, choices: [back] })];
}

function nextStage(state: SessionState, now: number): Ask[] {
  const to = stageAfter(state.stage);
  if (to === null || stopOpen(state) || missingFor(state, now).length > 0) return [];
  return [
    ask({
      key: `stage:${to}`,
      say: `advance.${to}`,
      weight: 4,
      choices: [choice("advance", "yes", { type: "advance", to })],
    }),
  ];
}
