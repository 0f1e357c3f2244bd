import { type Ask, ask, choice, type Need } from "../asks/ask.ts";
import { send } from "../asks/send.ts";
import { groundPowerKnown } from "../conditions/groundPowerKnown.ts";
import { plain } from "../engine/life.ts";
import { isNextFree, nextInOrder } from "../engine/nextInOrder.ts";
import { clearChoice } from "../leaves/asks.ts";
import { unmetForService } from "../leaves/conditions.ts";
import { authorityFault } from "../leaves/fault.ts";
import { openRequest } from "../leaves/openRequest.ts";
import type { Stage } from "../protocol/stages.ts";
import { type SessionState, stopOpen } from "../session/state.ts";

/** With every engine started the cockpit has ground power disconnected. */
export function powerOff(state: SessionState, now: number): Ask[] {
  const started = state.stage === "warmUp" || isNextFree(state);
  if (!started || nextInOrder(state) !== null) return [];
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

type Report = "connectPower" | "powerConnected" | "powerDisconnected";

function service(key: string, kind: Report, need: Need | null = null): Ask {
  return ask({ key, say: kind, weight: 3, choices: [choice(kind, "yes", send(kind), need)] });
}

/** The same work, which may also be left undone with everybody clear. */
function onLeave(work: Ask): Ask {
  return { ...work, choices: [...work.choices, clearChoice("no")] };
}

/** Ground power asks to connect, connects on the crew's leave, and reads the volts again while they matter. */
export function connecting(state: SessionState, now: number): Ask[] {
  if (stopOpen(state)) return [];
  const volts = { is: "figure", field: "volts", unit: state.type.groundPower.steadyMin.unit } as const;
  if (state.groundPower.is === "on") {
    if (!POWER_MATTERS.includes(state.stage)) return [];
    if (groundPowerKnown.find(state, 0, now).is === "yes") return [];
    return [{ ...service("volts", "powerConnected", volts), say: "volts" }];
  }
  if (state.authorities.connectPower?.epoch === state.epoch) {
    return [onLeave(service("powerConnected", "powerConnected", volts))];
  }
  const wanted = wantsPower(state) && !openRequest(state, "connectPower") && mayAsk(state, now);
  return wanted ? [service("connectPower", "connectPower")] : [];
}

/** The lowest volts of an attempt are worth knowing, where the type says what holds while an engine cranks. */
export function voltsWhileCranking(state: SessionState): Ask[] {
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

/** On the crew's leave alone. */
export function disconnecting(state: SessionState): Ask[] {
  const leave = state.authorities.disconnectPower?.epoch === state.epoch;
  return state.groundPower.is === "on" && leave
    ? [onLeave(service("powerDisconnected", "powerDisconnected"))]
    : [];
}

/** The crew could not authorise it yet: the check that stands against it is asked for first. */
function mayAsk(state: SessionState, now: number): boolean {
  return unmetForService(state, "connectPower", now).length === 0;
}

const POWER_MATTERS: readonly Stage[] = ["powerUp", "groundPower", "starting"];

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
