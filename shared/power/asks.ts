import { type Ask, ask, choice, type Need } from "../asks/ask.ts";
import { send } from "../asks/send.ts";
import { checkApplies } from "../checks/preheat.ts";
import { groundPowerKnown } from "../conditions/power.ts";
import { waitedFor } from "../conditions/renewal.ts";
import { isTurning, plain } from "../engine/life.ts";
import { isNextFree, nextInOrder } from "../engine/nextInOrder.ts";
import { clearChoice } from "../leaves/asks.ts";
import { unmetForService } from "../leaves/conditions.ts";
import { authorityFault } from "../leaves/fault.ts";
import { openRequest } from "../leaves/openRequest.ts";
import type { Stage } from "../protocol/stages.ts";
import { type SessionState, stopOpen } from "../session/state.ts";

/** Returns the cockpit's ask to have ground power disconnected, once every engine is started, or stopped. */
export function powerOff(state: SessionState, now: number): Ask[] {
  const started = state.stage === "warmUp" || isNextFree(state);
  const stopped = state.stage === "stowing";
  if (!stopped && (!started || nextInOrder(state) !== null)) return [];
  if (state.groundPower.is !== "on" || openRequest(state, "disconnectPower")) return [];
  if (authorityFault(state, "disconnectPower", now, null)) return [];
  return [
    ask({
      key: "powerOff",
      say: stopped ? "disconnectStopped" : "disconnectPower",
      weight: 3,
      choices: [choice("disconnectPower", "yes", send("disconnectPower"))],
    }),
  ];
}

type Report = "connectPower" | "powerConnected" | "powerDisconnected";

function service(key: string, kind: Report, need: Need | null = null): Ask {
  return ask({ key, say: kind, weight: 3, choices: [choice(kind, "yes", send(kind), need)] });
}

/** Returns the same ask with one more choice: the work is not done, and everybody is clear. */
function onLeave(work: Ask): Ask {
  return { ...work, choices: [...work.choices, clearChoice("no")] };
}

/**
 * Returns ground power's asks to request the connection, to connect on the crew's leave, and to read the volts again
 * while they matter.
 */
export function connecting(state: SessionState, now: number): Ask[] {
  if (stopOpen(state)) return [];
  const volts = { is: "figure", field: "volts", unit: state.type.groundPower.steadyMin.unit } as const;
  if (state.groundPower.is === "on") {
    if (!POWER_MATTERS.includes(state.stage)) return [];
    const waits = waitedFor(state, groundPowerKnown, now);
    if (groundPowerKnown.find(state, 0, now).is === "yes" && waits === null) return [];
    const again = { ...service("volts", "powerConnected", volts), say: "volts" } as const;
    return [waits === null ? again : { ...again, weight: 2, since: waits }];
  }
  if (state.authorities.connectPower?.epoch === state.epoch) {
    return [onLeave(service("powerConnected", "powerConnected", volts))];
  }
  const wanted = wantsPower(state, now) && !openRequest(state, "connectPower") && mayAsk(state, now);
  return wanted ? [service("connectPower", "connectPower")] : [];
}

/**
 * Returns the ask for the lowest volts of the last attempt, if the type says which band applies while an engine cranks.
 * It waits until no starter is held: ground power watches its meter meanwhile, and touches nothing.
 */
export function voltsCranked(state: SessionState): Ask[] {
  const { starting } = state.type.groundPower;
  if (!starting || state.groundPower.is !== "on" || state.stage !== "starting") return [];
  if (state.engines.some((e) => plain(e.life).is === "cranking")) return [];
  const [engine] = state.engines
    .filter((e) => e.starter.length > 0)
    .sort((a, b) => (b.starter.at(-1)?.on ?? 0) - (a.starter.at(-1)?.on ?? 0));
  const last = engine?.starter.at(-1);
  if (!engine || last === undefined || last.off === null || last.lowest) return [];
  const need = { is: "figure", field: "volts", unit: starting.min.unit } as const;
  return [
    ask({
      key: `crankVolts:${engine.n}:${engine.attempts}`,
      say: "voltsCranked",
      weight: 4,
      engine: engine.n,
      choices: [choice("lowestVolts", "yes", send("powerConnected", engine.n), need)],
    }),
  ];
}

/** Returns the ask to disconnect, only on the crew's leave. */
export function disconnecting(state: SessionState): Ask[] {
  const leave = state.authorities.disconnectPower?.epoch === state.epoch;
  return state.groundPower.is === "on" && leave
    ? [onLeave(service("powerDisconnected", "powerDisconnected"))]
    : [];
}

/** False while the crew could not authorise it: the check that prevents it is asked for first. */
function mayAsk(state: SessionState, now: number): boolean {
  return unmetForService(state, "connectPower", now).length === 0;
}

const POWER_MATTERS: readonly Stage[] = ["powerUp", "groundPower", "starting"];

/**
 * Returns true when ground power is planned and due: each battery is checked alone before, and the cart before its plug
 * goes in.
 */
function wantsPower(state: SessionState, now: number): boolean {
  if (state.powerSource !== "groundPower") return false;
  if (state.stage === "groundPower") {
    return (
      state.type.checks
        .filter((c) => c.stage === "groundPower" && c.post === "groundPower")
        // A check that does not count now is asked of nobody.
        .every((c) => state.checks[c.id]?.good === true || !checkApplies(state, c.id, now))
    );
  }
  if (state.stage === "stopping") return anyTurns(state);
  return state.stage === "starting" && !allStable(state);
}

/** In a return, ground power takes over while a generator still turns. */
function anyTurns({ engines }: SessionState): boolean {
  return engines.some((e) => isTurning(e.life));
}

function allStable(state: SessionState): boolean {
  return state.order.every((n) => state.engines[n - 1]?.life.is === "stable");
}
