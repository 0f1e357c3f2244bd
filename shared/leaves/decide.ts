import { isTurning, plain } from "../engine/life.ts";
import type { Send } from "../protocol/commands.ts";
import type { Quantity, Unit } from "../protocol/quantity.ts";
import type { Service, SessionState } from "../session/state.ts";
import { stopOpen } from "../session/state.ts";
import { accept, type Context, refuse, type Verdict } from "../session/verdict.ts";
import { unmetForService } from "./conditions.ts";

/** Ground power, chocks and brakes. */
export function decideService(state: SessionState, send: Send, context: Context): Verdict {
  switch (send.kind) {
    case "connectPower":
    case "disconnectPower":
    case "insertChocks":
    case "removeChocks":
      return ask(state, send, send.kind, context.now);
    case "handlePropeller":
      return (
        authorityFault(state, "handlePropeller", context.now, send.engine ?? null) ??
        accept({ ...send, type: "sent" })
      );
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
    const unsafe = authorityFault(state, service, now, send.engine ?? null);
    if (unsafe) return unsafe;
  }
  return accept({ ...send, type: "sent" });
}

/**
 * What stands against giving leave for a service now: a stop, a condition of the service, or, for hands on a
 * propeller, an engine that turns or is about to. The cockpit's leave there is its word that ignition is off.
 */
export function authorityFault(
  state: SessionState,
  service: Service,
  now: number,
  engine: number | null,
): Verdict | null {
  if (stopOpen(state)) return refuse("stopOpen");
  if (service === "handlePropeller") return handlingFault(state, engine);
  const unmet = unmetForService(state, service, now);
  return unmet.length === 0 ? null : refuse("conditionsUnmet", { unmet });
}

function handlingFault(state: SessionState, engine: number | null): Verdict | null {
  if (state.handling) return refuse("alreadyDone", { engine: state.handling.engine });
  const unsafe = state.engines.find(
    (e) => e.life.is === "clear" || plain(e.life).is === "cranking" || (e.n === engine && isTurning(e.life)),
  );
  return unsafe ? refuse("wrongEngineState", { engine: unsafe.n, found: unsafe.life.is }) : null;
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
