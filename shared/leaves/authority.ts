import type { SessionEvent } from "../protocol/events.ts";
import type { Post } from "../protocol/posts.ts";
import { attributionOf } from "../session/attribute.ts";
import type { SessionState } from "../session/state.ts";
import { unmetForService } from "./conditions.ts";
import { withLeaveOut } from "./out.ts";
import { SERVICES, type Service } from "./services.ts";

/**
 * Returns the state with the crew's leave given. For a propeller the leave states that ignition is off: hands may go on
 * at once.
 */
export function authorised(
  state: SessionState,
  service: Service,
  engine: number | null,
  event: SessionEvent,
  signal: number,
  asker: Post | null = null,
): SessionState {
  const by = attributionOf(event, null);
  if (service === "handlePropeller") {
    return engine === null
      ? state
      : { ...state, handling: { engine, by, ...(asker === null ? {} : { hands: asker }) } };
  }
  const authority = { signal, at: event.at, epoch: state.epoch, name: by.name };
  const given = { ...state, authorities: { ...state.authorities, [service]: authority } };
  return withLeaveOut(given, service, event);
}

/**
 * Returns the state without the leaves whose conditions a report no longer meets: the cart's output on again, no
 * generator left, brakes released or low, an inboard engine turning. An aged answer takes back no leave, because the
 * work may be under way.
 */
export function leavesKept(state: SessionState): SessionState {
  const lost = SERVICES.filter(
    (s) => state.authorities[s] !== null && unmetForService(state, s, state.at).some((r) => r.is === "no"),
  );
  if (lost.length === 0) return state;
  const authorities = { ...state.authorities };
  for (const service of lost) authorities[service] = null;
  return { ...state, authorities };
}
