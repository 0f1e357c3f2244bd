import { arcClear } from "../conditions/arcClear.ts";
import { groundPowerKnown } from "../conditions/groundPowerKnown.ts";
import { guardInPlace } from "../conditions/guardInPlace.ts";
import type { Send } from "../protocol/commands.ts";
import type { SignalKind } from "../protocol/signals.ts";
import { plain, type Service, type SessionState, stopOpen } from "../session/state.ts";
import { type Ask, ask, choice } from "./ask.ts";
import { openRequest } from "./cockpit.ts";

function send(kind: SignalKind, engine?: number): Send {
  return { type: "send", kind, channel: "panel", ...(engine === undefined ? {} : { engine }) };
}

/** The fire guard goes to the engine asked for, reports in place, then looks along the arc. */
export function askedOfFireGuard(state: SessionState, now: number): Ask[] {
  if (stopOpen(state)) return [];
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
          choices: [choice("guardInPlace", "yes", send("guardInPlace", e.n))],
        }),
      ];
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

/** Ground power and chocks: ask, act on the crew's leave, report with the figure read. */
export function askedOfGroundPower(state: SessionState, now: number): Ask[] {
  const asks: Ask[] = [];
  const unit = state.type.groundPower.steadyMin.unit;
  const volts = { is: "figure", field: "volts", unit } as const;
  const once = (key: string, kind: SignalKind, need: typeof volts | null = null) =>
    asks.push(ask({ key, say: kind, weight: 3, choices: [choice(kind, "yes", send(kind), need)] }));
  const leave = (service: Service) => state.authorities[service]?.epoch === state.epoch;

  if (state.stage === "secure" && state.chocks?.in !== true) once("chocksIn", "chocksIn");
  if (!stopOpen(state)) {
    if (state.groundPower.is !== "on") {
      if (leave("connectPower")) once("powerConnected", "powerConnected", volts);
      else if (wantsPower(state) && !openRequest(state, "connectPower")) once("connectPower", "connectPower");
    } else if (POWER_MATTERS.includes(state.stage) && groundPowerKnown.find(state, 0, now).is !== "yes") {
      once("volts", "powerConnected", volts);
    }
  }
  if (state.groundPower.is === "on" && leave("disconnectPower"))
    once("powerDisconnected", "powerDisconnected");
  if (state.chocks?.in === true && leave("removeChocks")) once("chocksOut", "chocksOut");
  return asks;
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
