import { know } from "../aircraft/know.ts";
import { knowField } from "../field/know.ts";
import type { FactOf, SessionEvent } from "../protocol/events.ts";
import { type Rehearsal, rehearsalFault } from "../protocol/rehearsal.ts";
import type { Returning, SessionState } from "./state.ts";

const NOTHING_STOPPED: Returning = {
  onStand: null,
  coolingSince: null,
  switchesOff: null,
  remarksDue: [],
};

/** No panel is told what is going to happen. */
function withoutScript({ played: _played, ...told }: Rehearsal): Omit<Rehearsal, "played"> {
  return told;
}

/**
 * Returns the state after a session's first event.
 * @throws Error when the event says in one place that it is a rehearsal, and not in another
 */
export function initialState(event: SessionEvent, fact: FactOf<"planned">): SessionState {
  const fault = rehearsalFault(event.session, fact);
  if (fault !== null) throw new Error(fault);
  const type = fact.aircraftType;
  const state: SessionState = {
    v: 1,
    id: event.session,
    seq: event.seq,
    at: event.at,
    aircraft: fact.aircraft,
    place: fact.place,
    type,
    ...(fact.rehearsal === undefined ? {} : { rehearsal: withoutScript(fact.rehearsal) }),
    ...(fact.purpose === "return" ? { returning: NOTHING_STOPPED } : {}),
    order: fact.order,
    powerSource: fact.powerSource,
    ...(fact.headingDeg === undefined ? {} : { headingDeg: fact.headingDeg }),
    ...(fact.elevationFt === undefined ? {} : { elevationFt: fact.elevationFt }),
    ...(fact.neighbours === undefined ? {} : { neighbours: fact.neighbours }),
    ...(fact.orderAdvice === undefined ? {} : { orderAdvice: fact.orderAdvice }),
    ...(fact.equipment === undefined ? {} : { equipment: fact.equipment.map((facts) => ({ facts })) }),
    ...(fact.inspectsDefects === undefined ? {} : { inspectsDefects: fact.inspectsDefects }),
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
      blades: null,
      exceeded: [],
      lastRanAt: fact.lastRan?.[e.n - 1] ?? null,
      readings: {},
    })),
    guard: null,
    arcs: {},
    brakes: null,
    chocks: null,
    groundPower: { is: "unknown" },
    handling: null,
    authorities: {
      connectPower: null,
      disconnectPower: null,
      insertChocks: null,
      removeChocks: null,
      handlePropeller: null,
    },
    allClearAt: null,
    holds: [],
    cuts: [],
    fires: [],
    signals: [],
    ended: [],
    alerts: [],
    overrides: [],
    defects: (fact.defects ?? []).map(({ at, name, ...d }) => ({
      ...d,
      by: { at, seq: event.seq, post: null, name, seenFrom: null },
    })),
    drills: [],
    drillsOpened: [],
    weather: null,
    liveSince: null,
    readings: {},
    checks: {},
  };
  const stands = fact.standing ? know(state, fact.standing, event.seq) : state;
  return fact.field ? knowField(stands, fact.field) : stands;
}
