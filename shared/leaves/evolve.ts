import { plain } from "../engine/life.ts";
import { readSince, withoutTrace } from "../power/evolveTrace.ts";
import { lowestSeen } from "../power/lowestVolts.ts";
import type { FactOf, SessionEvent } from "../protocol/events.ts";
import type { Quantity } from "../protocol/quantity.ts";
import { said } from "../session/attribute.ts";
import type { Attribution } from "../session/attribution.ts";
import { isService, type Service, type SessionState } from "../session/state.ts";
import { closeKinds } from "../signals/evolve.ts";
import { authorised } from "./authority.ts";

/** Ground power, chocks and brakes. A report of done uses up the crew's authority. */
export function evolveService(state: SessionState, event: SessionEvent, fact: FactOf<"sent">): SessionState {
  const by = said(event, fact.seenFrom ?? null);
  if (isService(fact.kind)) return asked(state, event, fact, fact.kind);
  switch (fact.kind) {
    case "powerConnected":
      if (!fact.volts) return state;
      if (readWhileCranking(state)) return whileCranking(state, fact.volts, by);
      return spend(steady(state, fact.volts, by), "connectPower");
    case "powerDisconnected":
      return spend({ ...withoutTrace(state), groundPower: { is: "off", by } }, "disconnectPower");
    case "chocksIn":
      return spend({ ...state, chocks: { ...by, in: true }, allClearAt: null }, "insertChocks");
    case "chocksOut":
      return spend({ ...state, chocks: { ...by, in: false }, allClearAt: null }, "removeChocks");
    case "propellerFree":
      return { ...state, handling: null };
    case "brakesSet":
      return { ...state, brakes: { ...by, set: true, pressure: fact.pressure ?? null } };
    case "brakesReleased":
      // Leave to remove the chocks stood on the brakes.
      return {
        ...state,
        brakes: { ...by, set: false, pressure: null },
        authorities: { ...state.authorities, removeChocks: null },
      };
    default:
      return state;
  }
}

function steady(state: SessionState, volts: Quantity, by: Attribution): SessionState {
  const groundPower = { is: "on" as const, volts, by, ...readSince(state, volts, by.at) };
  return { ...state, groundPower };
}

/** On already, an engine cranking, and the type says what holds then: no report of the steady volts. */
function readWhileCranking(state: SessionState): boolean {
  const cranking = state.engines.some((e) => plain(e.life).is === "cranking");
  return cranking && state.groundPower.is === "on" && state.type.groundPower.starting !== undefined;
}

function whileCranking(state: SessionState, volts: Quantity, by: Attribution): SessionState {
  if (state.groundPower.is !== "on") return state;
  const read = {
    ...state,
    groundPower: { ...state.groundPower, cranking: { volts, by }, ...readSince(state, volts, by.at) },
  };
  return lowestSeen(read, { ...volts, at: by.at, name: by.name, from: "groundPower" });
}

/** From the cockpit, the request is the authority itself. */
function asked(
  state: SessionState,
  event: SessionEvent,
  fact: FactOf<"sent">,
  service: Service,
): SessionState {
  const actor = event.actor;
  if (actor.kind !== "person" || actor.post !== "cockpit" || fact.seenFrom !== undefined) return state;
  return authorised(state, service, fact.engine ?? null, event, event.seq);
}

function spend(state: SessionState, service: Service): SessionState {
  return closeKinds({ ...state, authorities: { ...state.authorities, [service]: null } }, [service], "done");
}
