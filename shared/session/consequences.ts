import { findUnmet } from "../conditions/all.ts";
import type { Fact } from "../protocol/events.ts";
import type { Post } from "../protocol/posts.ts";
import {
  type Alert,
  type AlertKind,
  type Engine,
  engineOf,
  plain,
  type SessionState,
  stopOpen,
} from "./state.ts";

/**
 * What follows by itself from the state and the time: clearances that died, requests a stop took back, limits passed,
 * answers late, starters cooled, alerts begun and ended. Empty when nothing more follows.
 */
export function consequences(state: SessionState, now: number): Fact[] {
  return [
    ...state.engines.flatMap((e) => ofEngine(state, e, now)),
    ...lateSignals(state, now),
    ...alertsBegun(state, now),
    ...state.alerts
      .filter((a) => a.active && !stillTrue(state, a))
      .map((a): Fact => ({ type: "alertEnded", alert: a.id })),
  ];
}

function ofEngine(state: SessionState, engine: Engine, now: number): Fact[] {
  const life = plain(engine.life);
  const n = engine.n;
  if (life.is === "requested" && (stopOpen(state) || state.stage !== "starting")) {
    return [{ type: "requestWithdrawn", engine: n, signal: life.signal }];
  }
  if (life.is === "clear") return clearanceEnd(state, n, life.clearance, now);
  if (life.is === "cooling" && now >= life.until) return [{ type: "starterCooled", engine: n }];
  return [];
}

function clearanceEnd(
  state: SessionState,
  engine: number,
  clearance: { id: number; expiresAt: number; epoch: number },
  now: number,
): Fact[] {
  const dead = (cause: "expired" | "epoch" | "stageLeft"): Fact[] => [
    { type: "clearanceVoid", engine, clearance: clearance.id, cause },
  ];
  if (clearance.epoch !== state.epoch) return dead("epoch");
  if (state.stage !== "starting") return dead("stageLeft");
  if (now >= clearance.expiresAt) return dead("expired");
  const unmet = findUnmet(state, engine, now);
  if (unmet.length === 0) return [];
  return [{ type: "clearanceVoid", engine, clearance: clearance.id, cause: "condition", unmet }];
}

function lateSignals(state: SessionState, now: number): Fact[] {
  return state.signals
    .filter((s) => s.dueAt !== null && now >= s.dueAt)
    .map((s): Fact => ({ type: "late", signal: s.id, level: s.late === 0 ? 1 : 2 }));
}

const COCKPIT: Post[] = ["cockpit"];
const COCKPIT_AND_SUPERVISOR: Post[] = ["cockpit", "supervisor"];
const EVERY_POST: Post[] = ["cockpit", "fireGuard", "groundPower", "supervisor"];

function alertsBegun(state: SessionState, now: number): Fact[] {
  const raise = (kind: AlertKind, to: Post[], more: { engine?: number; ref?: number } = {}): Fact => ({
    type: "alertRaised",
    kind,
    to,
    ...more,
  });
  const facts: Fact[] = [];
  for (const engine of state.engines) {
    const life = plain(engine.life);
    const on = { engine: engine.n };
    if (life.is === "cranking" && now > life.limitAt && !life.limitSaid) {
      facts.push(raise("starterLimit", COCKPIT, on));
    }
    if (
      life.is === "cranking" &&
      !life.cleared &&
      engine.life.is !== "fire" &&
      !has(state, "turningUncleared", engine.n)
    ) {
      facts.push(raise("turningUncleared", EVERY_POST, on));
    }
    if (life.is !== "caught") continue;
    if (life.firstOilAt === null && now > life.firstDueAt && !life.firstLateSaid) {
      facts.push(raise("oilFirstLate", COCKPIT_AND_SUPERVISOR, on));
    }
    if (now > life.normalDueAt && !life.normalLateSaid) {
      facts.push(raise("oilNormalLate", COCKPIT_AND_SUPERVISOR, on));
    }
  }
  if (voltsOutOfRange(state) && !has(state, "groundPowerOutOfRange", null)) {
    facts.push(raise("groundPowerOutOfRange", ["cockpit", "groundPower"]));
  }
  for (const signal of state.signals) {
    if (signal.late === 2 && !state.alerts.some((a) => a.kind === "unanswered" && a.ref === signal.id)) {
      const engine = signal.engine === null ? {} : { engine: signal.engine };
      facts.push(raise("unanswered", COCKPIT_AND_SUPERVISOR, { ref: signal.id, ...engine }));
    }
  }
  return facts;
}

function has(state: SessionState, kind: AlertKind, engine: number | null): boolean {
  return state.alerts.some((a) => a.active && a.kind === kind && a.engine === engine);
}

function voltsOutOfRange(state: SessionState): boolean {
  if (state.groundPower.is !== "on") return false;
  const { value } = state.groundPower.volts;
  const { steadyMin, steadyMax } = state.type.groundPower;
  return value < steadyMin.value || value > steadyMax.value;
}

/** Whether what an alert is about still holds. */
function stillTrue(state: SessionState, alert: Alert): boolean {
  const life = alert.engine === null ? null : plain(engineOf(state, alert.engine)?.life ?? { is: "waiting" });
  switch (alert.kind) {
    case "starterLimit":
    case "turningUncleared":
      return life?.is === "cranking" && (alert.kind === "starterLimit" || !life.cleared);
    case "oilFirstLate":
      return life?.is === "caught" && life.firstOilAt === null;
    case "oilNormalLate":
      return life?.is === "caught";
    case "groundPowerOutOfRange":
      return voltsOutOfRange(state);
    case "unanswered":
      return state.signals.some((s) => s.id === alert.ref);
  }
}
