import { unmetForService } from "../../conditions/services.ts";
import type { Send } from "../../protocol/commands.ts";
import type { Quantity, Unit } from "../../protocol/quantity.ts";
import type { Service, SessionState } from "../state.ts";
import { isTurning, stopOpen } from "../state.ts";
import { accept, type Context, refuse, type Verdict } from "../verdict.ts";
import { witnessFault } from "./witness.ts";

/** Ground power, chocks and brakes. */
export function decideService(state: SessionState, send: Send, context: Context): Verdict {
  const fault = witnessFault(send, context);
  if (fault) return fault;
  switch (send.kind) {
    case "connectPower":
    case "disconnectPower":
    case "insertChocks":
    case "removeChocks":
      return ask(state, send, send.kind, context.now);
    case "handlePropeller":
      return handle(state, send, context.now);
    case "propellerFree":
      if (state.handling?.engine !== send.engine) return refuse("nothingOpen");
      return accept({ ...send, type: "sent" });
    case "powerConnected": {
      const wrong = figureFault(send.volts, state.type.groundPower.steadyMin.unit);
      if (wrong) return wrong;
      // Once on, the same report only refreshes the volts.
      if (state.groundPower.is === "on") return accept({ ...send, type: "sent" });
      return withAuthority(state, send, "connectPower");
    }
    case "powerDisconnected":
      return withAuthority(state, send, "disconnectPower");
    case "chocksOut":
      return withAuthority(state, send, "removeChocks");
    case "brakesSet":
      return (
        figureFault(send.pressure, state.type.brakePressure.atLeast.unit) ?? accept({ ...send, type: "sent" })
      );
    default:
      return accept({ ...send, type: "sent" });
  }
}

function ask(state: SessionState, send: Send, service: Service, now: number): Verdict {
  if (stopOpen(state)) return refuse("stopOpen");
  if (alreadySo(state, service)) return refuse("alreadyDone");
  // Asked by the cockpit, the request is the authority: it must be safe to give.
  if (send.seenFrom === undefined) {
    const unsafe = authorityFault(state, service, now);
    if (unsafe) return unsafe;
  }
  return accept({ ...send, type: "sent" });
}

/** What stands against giving leave for a service now: a stop, or a condition of the service. */
export function authorityFault(state: SessionState, service: Service, now: number): Verdict | null {
  if (stopOpen(state)) return refuse("stopOpen");
  const unmet = unmetForService(state, service, now);
  return unmet.length === 0 ? null : refuse("conditionsUnmet", { unmet });
}

/** Hands on a propeller: only one that stands still, with no start under way anywhere, on the cockpit's word that
 * ignition is off. The cockpit's authority is that word. */
function handle(state: SessionState, send: Send, now: number): Verdict {
  const turningUp = state.engines.find((e) => e.life.is === "clear" || e.life.is === "cranking");
  if (turningUp) return refuse("wrongEngineState", { engine: turningUp.n, found: turningUp.life.is });
  const engine = state.engines[(send.engine ?? 0) - 1];
  if (engine && isTurning(engine.life)) {
    return refuse("wrongEngineState", { engine: engine.n, found: engine.life.is });
  }
  if (state.handling) return refuse("alreadyDone", { engine: state.handling.engine });
  return authorityFault(state, "handlePropeller", now) ?? accept({ ...send, type: "sent" });
}

function alreadySo(state: SessionState, service: Service): boolean {
  switch (service) {
    case "connectPower":
      return state.groundPower.is === "on";
    case "disconnectPower":
      return state.groundPower.is === "off";
    case "insertChocks":
      return state.chocks?.in === true;
    case "removeChocks":
      return state.chocks?.in === false;
    case "handlePropeller":
      return state.handling !== null;
  }
}

/** Done is only possible on the crew's leave, given in this epoch. */
function withAuthority(state: SessionState, send: Send, service: Service): Verdict {
  const authority = state.authorities[service];
  if (!authority || authority.epoch !== state.epoch) {
    return refuse("noAuthority", { posts: ["cockpit"], found: service });
  }
  return accept({ ...send, ref: authority.signal, type: "sent" });
}

function figureFault(figure: Quantity | undefined, unit: Unit): Verdict | null {
  if (!figure) return refuse("missingFigure", { found: unit });
  if (figure.unit !== unit) return refuse("wrongUnit", { found: unit });
  if (figure.value < 0) return refuse("outOfRange", { found: `${figure.value} ${figure.unit}` });
  return null;
}
