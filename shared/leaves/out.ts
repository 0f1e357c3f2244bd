import type { SessionEvent } from "../protocol/events.ts";
import { said } from "../session/attribute.ts";
import type { LeaveOut, OutService, SessionState } from "../session/state.ts";

/** Services whose people work at the aircraft without touching a propeller. */
export const OUT_SERVICES: readonly OutService[] = [
  "connectPower",
  "disconnectPower",
  "insertChocks",
  "removeChocks",
];

/** Every leave on which people may still be at the aircraft, whether it still permits the work or not. */
export function leavesOut(state: SessionState): LeaveOut[] {
  const kept = state.leavesOut ?? [];
  // A state stored before leaves were kept apart knows only those that permit.
  const others = OUT_SERVICES.flatMap((service): LeaveOut[] => {
    const leave = state.authorities[service];
    if (leave === null || kept.some((l) => l.service === service)) return [];
    const { at, signal: seq, name } = leave;
    return [{ service, by: { at, seq, post: "cockpit", name, seenFrom: null } }];
  });
  return [...kept, ...others];
}

/** The leaves that are out and permit nothing any more: their people are to stand clear. */
export function leavesEnded(state: SessionState): LeaveOut[] {
  return leavesOut(state).filter(({ service }) => state.authorities[service]?.epoch !== state.epoch);
}

/** The state with the crew's leave for a service out from this event on. */
export function withLeaveOut(state: SessionState, service: OutService, event: SessionEvent): SessionState {
  const others = leavesOut(state).filter((l) => l.service !== service);
  return { ...state, leavesOut: [...others, { service, by: said(event, null) }] };
}

/** The state with the people of some services reported clear. Absent when none is out, as in older records. */
export function withoutLeavesOut(state: SessionState, services: readonly OutService[]): SessionState {
  const left = leavesOut(state).filter((l) => !services.includes(l.service));
  const { leavesOut: _before, ...rest } = state;
  return left.length === 0 ? rest : { ...rest, leavesOut: left };
}
