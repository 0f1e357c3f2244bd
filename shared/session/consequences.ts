import { alertConsequences } from "../alerts/consequences.ts";
import { findUnmet } from "../conditions/all.ts";
import { drillConsequences } from "../drills/consequences.ts";
import { clearanceEnd } from "../engine/clearance.ts";
import { type Engine, plain } from "../engine/life.ts";
import { overridesEnded } from "../overrides/consequences.ts";
import { lapsedPosts } from "../posts/presence.ts";
import type { Fact } from "../protocol/events.ts";
import { fireOutLapses } from "../stops/fireOutWord.ts";
import { type SessionState, stopOpen } from "./state.ts";

/**
 * Returns the facts that follow from the state and the time alone: clearances that ended, requests that a stop took
 * back, limits passed, answers late, starters cooled, silent posts, alerts begun and ended, drills opened. Empty when
 * nothing more follows.
 */
export function consequences(state: SessionState, now: number): Fact[] {
  return [
    ...silenceHeld(state, now),
    ...state.engines.flatMap((e) => ofEngine(state, e, now)),
    ...overridesEnded(state, now),
    ...fireOutLapses(state, now),
    ...state.signals
      .filter((s) => s.dueAt !== null && now >= s.dueAt)
      .map((s): Fact => ({ type: "late", signal: s.id, level: s.late === 0 ? 1 : 2 })),
    ...alertConsequences(state, now),
    ...drillConsequences(state),
  ];
}

function silenceHeld(state: SessionState, now: number): Fact[] {
  const posts = lapsedPosts(state, now);
  return posts.length === 0 ? [] : [{ type: "silenceHeld", posts }];
}

function ofEngine(state: SessionState, engine: Engine, now: number): Fact[] {
  const life = plain(engine.life);
  const n = engine.n;
  if (life.is === "requested" && (stopOpen(state) || state.stage !== "starting")) {
    return [{ type: "requestWithdrawn", engine: n, signal: life.signal }];
  }
  if (life.is === "clear") return endOf(state, n, life.clearance, now);
  if (life.is === "cooling" && now >= life.until) return [{ type: "starterCooled", engine: n }];
  return [];
}

function endOf(
  state: SessionState,
  engine: number,
  clearance: { id: number; expiresAt: number; epoch: number },
  now: number,
): Fact[] {
  const dead = (cause: "expired" | "epoch" | "stageLeft"): Fact[] => [
    clearanceEnd(engine, clearance.id, cause),
  ];
  if (clearance.epoch !== state.epoch) return dead("epoch");
  if (state.stage !== "starting") return dead("stageLeft");
  if (now >= clearance.expiresAt) return dead("expired");
  const unmet = findUnmet(state, engine, now);
  if (unmet.length === 0) return [];
  return [clearanceEnd(engine, clearance.id, "condition", unmet)];
}
