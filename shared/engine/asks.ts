import { type Ask, ask, choice } from "../asks/ask.ts";
import { conditionOf, findUnmet } from "../conditions/all.ts";
import { brakesSet } from "../conditions/brakesSet.ts";
import { authorityFault } from "../leaves/fault.ts";
import { starterDutyAt } from "../models/starter.ts";
import type { Send } from "../protocol/commands.ts";
import type { SignalKind } from "../protocol/signals.ts";
import { reading } from "../readings/ask.ts";
import { runUp } from "../runUp/asks.ts";
import { gatesShort } from "../runUp/gates.ts";
import { engineOf, type SessionState, stopOpen } from "../session/state.ts";
import { gaugeName } from "../types/gaugeName.ts";
import { airTemperature } from "../weather/air.ts";
import { type Engine, isTurning, plain } from "./life.ts";
import { nextInOrder } from "./nextInOrder.ts";

function send(kind: SignalKind, engine?: number): Send {
  return { type: "send", kind, channel: "panel", ...(engine === undefined ? {} : { engine }) };
}

/** What the start asks of the cockpit. */
export function askedOfCockpit(state: SessionState, now: number): Ask[] {
  return [
    ...cutAgain(state),
    ...brakes(state, now),
    ...state.engines.flatMap((e) => ofEngine(state, e)),
    ...course(state, now),
  ];
}

/** An engine that turns under a cut already reported done is still to be stopped: the cut cannot end before. */
function cutAgain(state: SessionState): Ask[] {
  const done = state.cuts.filter((c) => c.doneAt !== null);
  return state.engines
    .filter((e) => isTurning(e.life) && done.some((c) => c.engine === null || c.engine === e.n))
    .map((e) =>
      ask({
        key: `cutAgain:${e.n}`,
        say: "answer.cut",
        weight: 0,
        engine: e.n,
        choices: [choice("shutDown", "yes", send("shutDown", e.n))],
      }),
    );
}

/** Until the last engine is started, and again before the chocks come out: pressure bleeds off meanwhile. */
function brakesMatter(state: SessionState): boolean {
  if (state.chocks?.in === true) {
    const leaving = state.stage === "release" || state.signals.some((s) => s.kind === "removeChocks");
    if (leaving) return true;
  }
  return state.stage === "secure" || state.stage === "groundPower" || state.stage === "starting";
}

function brakes(state: SessionState, now: number): Ask[] {
  if (!brakesMatter(state)) return [];
  const finding = brakesSet.find(state, 0, now);
  if (finding.is === "yes") return [];
  const unit = state.type.brakePressure.atLeast.unit;
  return [
    ask({
      key: "brakes",
      say: "brakesSet",
      weight: 3,
      since: finding.at,
      choices: [choice("brakesSet", "yes", send("brakesSet"), { is: "figure", field: "pressure", unit })],
    }),
  ];
}

function ofEngine(state: SessionState, engine: Engine): Ask[] {
  const life = plain(engine.life);
  const n = engine.n;
  const base = { key: `engine:${n}:${life.is}`, weight: 2 as const, engine: n };
  const stop = choice("shutDown", "no", send("shutDown", n));
  switch (life.is) {
    case "clear":
      if (life.clearance.readBackAt === null) return [];
      return [
        ask({
          ...base,
          say: "crank",
          since: life.since,
          dueAt: life.clearance.expiresAt,
          choices: [
            choice("cranking", "yes", { ...send("cranking", n), ref: life.clearance.id }),
            choice("startAbandoned", "no", send("startAbandoned", n)),
          ],
        }),
      ];
    case "cranking":
      return [
        ask({
          ...base,
          say: "cranking",
          since: life.since,
          dueAt: life.limitAt,
          choices: [
            choice("caught", "yes", send("caught", n)),
            choice("startAbandoned", "no", send("startAbandoned", n)),
          ],
        }),
      ];
    case "caught":
      return [
        ask({
          ...base,
          say: life.firstOilAt === null ? "oilFirst" : "oilNormal",
          since: life.since,
          dueAt: life.firstOilAt === null ? life.firstDueAt : life.normalDueAt,
          choices: [reading(state, "oilPressure", n), stop],
        }),
      ];
    case "running":
      return [
        ask({
          ...base,
          say: "settle",
          since: life.since,
          choices: [choice("started", "yes", send("started", n)), stop],
        }),
      ];
    default:
      return [];
  }
}

function course(state: SessionState, now: number): Ask[] {
  switch (state.stage) {
    case "starting":
      return nextEngine(state, now);
    case "warmUp":
      return [...gates(state), ...runUp(state), ...powerOff(state, now)];
    case "release":
      if (state.chocks?.in !== true || openRequest(state, "removeChocks")) return [];
      if (authorityFault(state, "removeChocks", now, null)) return [];
      return [
        ask({
          key: "chocks",
          say: "removeChocks",
          weight: 3,
          choices: [choice("removeChocks", "yes", send("removeChocks"))],
        }),
      ];
    default:
      return [];
  }
}

function nextEngine(state: SessionState, now: number): Ask[] {
  const busy = state.engines.some((e) =>
    ["requested", "clear", "cranking", "caught", "running", "fire"].includes(e.life.is),
  );
  if (busy || stopOpen(state)) return [];
  const n = nextInOrder(state);
  if (n === null) return powerOff(state, now);
  const engine = engineOf(state, n);
  const uses = engine?.starter ?? [];
  const { permittedAt } = starterDutyAt(state.type.starter, uses, now, airTemperature(state));
  if (now < permittedAt) {
    return [ask({ key: `cool:${n}`, say: "starterCooling", weight: 4, engine: n, dueAt: permittedAt })];
  }
  const before = findUnmet(state, n, now).find((u) => conditionOf(u.id).askedBefore);
  if (before) {
    const detail = { is: "condition", condition: before.id } as const;
    return [ask({ key: `wait:${n}`, say: "startWaits", weight: 4, engine: n, detail })];
  }
  return [
    ask({
      key: `next:${n}`,
      say: "readyToStart",
      weight: 2,
      engine: n,
      choices: [choice("readyToStart", "yes", send("readyToStart", n))],
    }),
  ];
}

function powerOff(state: SessionState, now: number): Ask[] {
  if (state.groundPower.is !== "on" || openRequest(state, "disconnectPower")) return [];
  if (authorityFault(state, "disconnectPower", now, null)) return [];
  return [
    ask({
      key: "powerOff",
      say: "disconnectPower",
      weight: 3,
      choices: [choice("disconnectPower", "yes", send("disconnectPower"))],
    }),
  ];
}

function gates(state: SessionState): Ask[] {
  return gatesShort(state).map(({ n, gauge }) =>
    ask({
      key: `gate:${n}:${gauge}`,
      say: "warmUp",
      weight: 4,
      engine: n,
      detail: { is: "gauge", name: gaugeName(state.type, gauge) },
      choices: [reading(state, gauge, n)],
    }),
  );
}

/** A request of this kind that is still open, or authorised and not yet done. */
export function openRequest(
  state: SessionState,
  kind: "connectPower" | "disconnectPower" | "removeChocks",
): boolean {
  const authority = state.authorities[kind];
  return (
    state.signals.some((s) => s.kind === kind) || (authority !== null && authority.epoch === state.epoch)
  );
}
