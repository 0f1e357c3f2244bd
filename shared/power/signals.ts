import { foundDone, leaveOf, onLeave, service, serviceReport, spent } from "../leaves/service.ts";
import type { Quantity } from "../protocol/quantity.ts";
import { FROM_SECURE, LIVE_STAGES, type Stage } from "../protocol/stages.ts";
import { figureFault } from "../readings/figureFault.ts";
import { attributionOf, giverOf } from "../session/attribute.ts";
import type { Attribution } from "../session/attribution.ts";
import type { SessionState } from "../session/state.ts";
import { ANNEX } from "../signals/definition.ts";
import { readSince, withoutTrace } from "./evolveTrace.ts";
import { lowestSeen } from "./lowestVolts.ts";
import { readWhileCranking, voltsBand } from "./voltsBand.ts";

const CONNECTING: readonly Stage[] = ["powerUp", "groundPower", "starting", "warmUp", "arrival", "stopping"];

export const connectPower = service("connectPower", (state) => state.groundPower.is === "on", {
  stages: CONNECTING,
  standard: { figure: "connectPower", text: `${ANNEX} 5.3, connect ground power (from memory)` },
});

/**
 * On, with the volts read. Once it is on, the same report only refreshes them; with an engine it is of the lowest volts
 * of that engine's last attempt. Bad volts are always taken.
 */
export const powerConnected = serviceReport({
  stages: CONNECTING,
  lowersBy: (state, { volts, engine }) => volts !== undefined && outsideBand(state, volts, engine),
  decide(state, send) {
    const wrong = figureFault(send.volts, state.type.groundPower.steadyMin.unit);
    if (wrong) return wrong;
    if (state.groundPower.is === "on" || powerConnected.lowersBy(state, send)) {
      return foundDone(state, send, "connectPower");
    }
    return onLeave(state, send, "connectPower");
  },
  evolve(state, event, fact) {
    if (!fact.volts) return state;
    const by = attributionOf(event, fact.seenFrom ?? null);
    if (readWhileCranking(state, fact.engine)) return whileCranking(state, fact.volts, by, fact.engine);
    return spent(steady(state, fact.volts, by), "connectPower", giverOf(event, fact));
  },
});

export const disconnectPower = service("disconnectPower", (state) => state.groundPower.is === "off", {
  stages: FROM_SECURE,
  standard: {
    figure: "disconnectPower",
    text: `${ANNEX} 5.3, disconnect ground power, not before the crew authorises (from memory)`,
  },
});

/** Off. Without the crew's leave it fell out or was pulled. */
export const powerDisconnected = serviceReport({
  class: "lowers",
  stages: LIVE_STAGES,
  decide: (state, send) => foundDone(state, send, "disconnectPower"),
  evolve(state, event, fact) {
    const by = attributionOf(event, fact.seenFrom ?? null);
    const onLeave = leaveOf(state, "disconnectPower") !== null;
    const before = state.groundPower;
    const lost = !onLeave && (before.is === "on" || (before.is === "off" && before.lost === true));
    const groundPower = { is: "off" as const, by, ...(lost ? { lost } : {}) };
    return spent({ ...withoutTrace(state), groundPower }, "disconnectPower", giverOf(event, fact));
  },
});

function outsideBand(state: SessionState, { value, unit }: Quantity, of?: number): boolean {
  const [min, max] = voltsBand(state, of);
  return unit === min.unit && (value < min.value || value > max.value);
}

function steady(state: SessionState, volts: Quantity, by: Attribution): SessionState {
  const groundPower = { is: "on" as const, volts, by, ...readSince(state, volts, by.at) };
  return { ...state, groundPower };
}

function whileCranking(state: SessionState, volts: Quantity, by: Attribution, of?: number): SessionState {
  if (state.groundPower.is !== "on") return state;
  const read = {
    ...state,
    groundPower: { ...state.groundPower, cranking: { volts, by }, ...readSince(state, volts, by.at) },
  };
  return lowestSeen(read, { ...volts, at: by.at, name: by.name, from: "groundPower" }, of);
}
