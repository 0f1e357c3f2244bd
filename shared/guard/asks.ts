import { type Ask, ask, type Choice, choice } from "../asks/ask.ts";
import { arcClear } from "../conditions/arcClear.ts";
import { bladesCounted } from "../conditions/bladesCounted.ts";
import { groundPowerKnown } from "../conditions/groundPowerKnown.ts";
import { guardInPlace } from "../conditions/guardInPlace.ts";
import { guardPathClear } from "../conditions/guardPathClear.ts";
import { openRequest } from "../engine/asks.ts";
import { type Engine, isTurning, plain } from "../engine/life.ts";
import { unmetForService } from "../leaves/conditions.ts";
import { authorityFault } from "../leaves/fault.ts";
import { bladesForEveryCylinder } from "../models/bladeCount.ts";
import { bladesDueAt } from "../propeller/bladesDue.ts";
import type { Send } from "../protocol/commands.ts";
import type { SignalKind } from "../protocol/signals.ts";
import { type Service, type SessionState, stopOpen } from "../session/state.ts";
import { turningOnTheWay } from "./way.ts";

function send(kind: SignalKind, engine?: number): Send {
  return { type: "send", kind, channel: "panel", ...(engine === undefined ? {} : { engine }) };
}

/** The fire guard goes to the engine asked for, reports in place, then looks along the arc. */
export function askedOfFireGuard(state: SessionState, now: number): Ask[] {
  // Started on batteries with nobody at ground power, the guard counts the blades.
  const counting = state.posts.groundPower === null ? blades(state, now) : [];
  return [...(stopOpen(state) ? [] : guarding(state, now)), ...counting];
}

function guarding(state: SessionState, now: number): Ask[] {
  return state.engines.flatMap((e) => {
    const life = plain(e.life);
    if (life.is !== "requested" && life.is !== "clear") return [];
    const base = { weight: 2 as const, engine: e.n, since: life.since };
    if (guardInPlace.find(state, e.n, now).is !== "yes") {
      return [
        ask({
          ...base,
          key: `guard:${e.n}`,
          say: "guardInPlace",
          choices: [inPlace(state, e.n)],
        }),
      ];
    }
    if (
      guardPathClear.find(state, e.n, now).is === "no" &&
      state.type.conditions.includes("guardPathClear")
    ) {
      return [ask({ ...base, key: `path:${e.n}`, say: "guardPath", choices: [inPlace(state, e.n)] })];
    }
    if (arcClear.find(state, e.n, now).is === "yes") return [];
    return [
      ask({
        ...base,
        key: `arc:${e.n}`,
        say: "arcClear",
        choices: [
          choice("arcClear", "yes", send("arcClear", e.n)),
          choice("arcNotClear", "no", send("arcNotClear", e.n)),
        ],
      }),
    ];
  });
}

/** In place; with a turning engine on the straight way, the guard says to have walked around it. */
function inPlace(state: SessionState, n: number): Choice {
  const turning = turningOnTheWay(state, state.guard?.engine ?? null, n);
  if (turning === undefined && state.guard?.crossed == null) {
    return choice("guardInPlace", "yes", send("guardInPlace", n));
  }
  return choice("guardWalkedAround", "yes", { ...send("guardInPlace", n), walkedAround: true });
}

function turns(state: SessionState, n: number): boolean {
  const engine = state.engines[n - 1];
  return engine !== undefined && isTurning(engine.life);
}

/** Blades that must be counted before a start: hands on with the crew's word, count, hands off. */
function blades(state: SessionState, now: number): Ask[] {
  const handling = state.handling;
  if (handling) {
    const engine = state.engines[handling.engine - 1];
    const counted = engine?.blades;
    const free = choice("propellerFree", "yes", send("propellerFree", handling.engine));
    const atLeast = engine ? bladesToCount(state, engine, now) : 0;
    const count = choice(
      "countBlades",
      "yes",
      { type: "countBlades", engine: handling.engine },
      { is: "blades", atLeast },
    );
    const done = counted !== null && counted !== undefined && counted.by.at >= handling.by.at;
    return [
      ask({
        key: `blades:${handling.engine}`,
        say: done ? "propellerFree" : "countBlades",
        weight: 3,
        engine: handling.engine,
        since: handling.by.at,
        choices: done ? [free] : [count, free],
      }),
    ];
  }
  const wanted = state.stage === "secure" || state.stage === "starting";
  if (!state.type.conditions.includes("bladesCounted") || !wanted || stopOpen(state)) return [];
  if (state.signals.some((s) => s.kind === "handlePropeller")) return [];
  const next = state.order.find((n) => !turns(state, n) && bladesCounted.find(state, n, now).is !== "yes");
  if (next === undefined || authorityFault(state, "handlePropeller", now, next)) return [];
  return [
    ask({
      key: `handle:${next}`,
      say: "handlePropeller",
      weight: 3,
      engine: next,
      choices: [choice("handlePropeller", "yes", send("handlePropeller", next))],
    }),
  ];
}

/** Blades the rule asks for now; where it asks for none, hands on a propeller still turn every cylinder once. */
function bladesToCount(state: SessionState, engine: Engine, now: number): number {
  const due = bladesDueAt(state, engine, now);
  if (due.ok && due.value.due) return due.value.blades;
  const least = bladesForEveryCylinder(state.type.propeller);
  return least.ok ? least.value : state.type.propeller.blades;
}

type ServiceWord = "chocksIn" | "chocksOut" | "connectPower" | "powerConnected" | "powerDisconnected";

/** Ground power and chocks: ask, act on the crew's leave, report with the figure read. */
export function askedOfGroundPower(state: SessionState, now: number): Ask[] {
  const asks: Ask[] = [];
  const unit = state.type.groundPower.steadyMin.unit;
  const volts = { is: "figure", field: "volts", unit } as const;
  const once = (key: string, kind: ServiceWord, need: typeof volts | null = null) =>
    asks.push(ask({ key, say: kind, weight: 3, choices: [choice(kind, "yes", send(kind), need)] }));
  const leave = (service: Service) => state.authorities[service]?.epoch === state.epoch;

  if (state.stage === "secure" && state.chocks?.in !== true) once("chocksIn", "chocksIn");
  if (!stopOpen(state)) {
    if (state.groundPower.is !== "on") {
      if (leave("connectPower")) once("powerConnected", "powerConnected", volts);
      else if (wantsPower(state) && !openRequest(state, "connectPower") && mayAsk(state, now))
        once("connectPower", "connectPower");
    } else if (POWER_MATTERS.includes(state.stage) && groundPowerKnown.find(state, 0, now).is !== "yes") {
      once("volts", "powerConnected", volts);
    }
  }
  asks.push(...voltsWhileCranking(state));
  if (state.groundPower.is === "on" && leave("disconnectPower"))
    once("powerDisconnected", "powerDisconnected");
  if (state.chocks?.in === true && leave("removeChocks")) once("chocksOut", "chocksOut");
  return [...asks, ...blades(state, now)];
}

/** The lowest volts of an attempt are worth knowing, where the type says what holds while an engine cranks. */
function voltsWhileCranking(state: SessionState): Ask[] {
  const { starting } = state.type.groundPower;
  const engine = state.engines.find((e) => plain(e.life).is === "cranking");
  if (!starting || !engine || state.groundPower.is !== "on" || engine.starter.at(-1)?.lowest) return [];
  const need = { is: "figure", field: "volts", unit: starting.min.unit } as const;
  return [
    ask({
      key: `crankVolts:${engine.n}:${engine.attempts}`,
      say: "voltsCranking",
      weight: 3,
      engine: engine.n,
      choices: [choice("lowestVolts", "yes", send("powerConnected"), need)],
    }),
  ];
}

/** The crew could not authorise it yet: the check that stands against it is asked for first. */
function mayAsk(state: SessionState, now: number): boolean {
  return unmetForService(state, "connectPower", now).length === 0;
}

const POWER_MATTERS = ["powerUp", "groundPower", "starting"];

/** Planned, and its time has come: each battery alone is checked before, and the cart before its plug goes in. */
function wantsPower(state: SessionState): boolean {
  if (state.powerSource !== "groundPower") return false;
  if (state.stage === "groundPower") {
    return state.type.checks
      .filter((c) => c.stage === "groundPower" && c.post === "groundPower")
      .every((c) => state.checks[c.id]?.good === true);
  }
  return state.stage === "starting" && !allStable(state);
}

function allStable(state: SessionState): boolean {
  return state.order.every((n) => state.engines[n - 1]?.life.is === "stable");
}
