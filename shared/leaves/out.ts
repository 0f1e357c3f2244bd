import type { SessionEvent } from "../protocol/events.ts";
import { attributionOf } from "../session/attribute.ts";
import type { SessionState } from "../session/state.ts";
import type { LeaveOut, OutService } from "./services.ts";

/** Services whose people work at the aircraft without touching a propeller. */
export const OUT_SERVICES: readonly OutService[] = [
  "connectPower",
  "disconnectPower",
  "insertChocks",
  "removeChocks",
];

/** Returns every leave on which people may still be at the aircraft, whether or not it still permits the work. */
export function leavesOut(state: SessionState): LeaveOut[] {
  return [...ownLeavesOut(state), ...(state.standing?.leaves ?? [])];
}

/** Returns those of them that this session's crew gave. */
export function ownLeavesOut(state: SessionState): LeaveOut[] {
  const kept = state.leavesOut ?? [];
  // A state that an older version stored has no `leavesOut`, only the leaves that still permit work.
  const others = OUT_SERVICES.flatMap((service): LeaveOut[] => {
    const leave = state.authorities[service];
    if (leave === null || kept.some((l) => l.service === service)) return [];
    const { at, signal: seq, name } = leave;
    return [{ service, by: { at, seq, post: "cockpit", name, seenFrom: null } }];
  });
  return [...kept, ...others];
}

/** Returns the leaves that are out but no longer permit work: their people must stand clear. */
export function leavesEnded(state: SessionState): LeaveOut[] {
  return leavesOut(state).filter(
    ({ service, no }) => no !== undefined || state.authorities[service]?.epoch !== state.epoch,
  );
}

/** Returns the state with the crew's leave for a service out since this event. */
export function withLeaveOut(state: SessionState, service: OutService, event: SessionEvent): SessionState {
  const others = ownLeavesOut(state).filter((l) => l.service !== service);
  return { ...state, leavesOut: [...others, { service, by: attributionOf(event, null) }] };
}

/**
 * Returns the state after the people of some services reported clear. The field is absent when no leave is out, as in
 * older records.
 */
export function withoutLeavesOut(state: SessionState, services: readonly OutService[]): SessionState {
  const left = ownLeavesOut(state).filter((l) => !services.includes(l.service));
  const { leavesOut: _before, ...rest } = state;
  return left.length === 0 ? rest : { ...rest, leavesOut: left };
}
