import type { FactOf, SessionEvent } from "../protocol/events.ts";
import type { SessionState } from "./state.ts";

/** The state a session's first event makes. */
export function initialState(event: SessionEvent, fact: FactOf<"planned">): SessionState {
  const type = fact.aircraftType;
  return {
    v: 1,
    id: event.session,
    seq: event.seq,
    at: event.at,
    aircraft: fact.aircraft,
    place: fact.place,
    type,
    order: fact.order,
    powerSource: fact.powerSource,
    crew: fact.crew,
    stage: "plan",
    stageSince: event.at,
    posts: { cockpit: null, fireGuard: null, groundPower: null, supervisor: null },
    offers: { cockpit: null, fireGuard: null, groundPower: null, supervisor: null },
    epoch: 1,
    engines: type.engines.map((e) => ({
      n: e.n,
      life: { is: "waiting" },
      fence: 0,
      attempts: 0,
      starter: [],
      readings: {},
    })),
    guard: null,
    arcs: {},
    brakes: null,
    chocks: null,
    groundPower: { is: "unknown" },
    authorities: { connectPower: null, disconnectPower: null, insertChocks: null, removeChocks: null },
    allClearAt: null,
    holds: [],
    cuts: [],
    fires: [],
    signals: [],
    ended: [],
    alerts: [],
    readings: {},
    checks: {},
  };
}
