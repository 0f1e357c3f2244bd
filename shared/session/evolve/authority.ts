import type { SessionEvent } from "../../protocol/events.ts";
import type { Service, SessionState } from "../state.ts";
import { said } from "./said.ts";

/**
 * The crew's leave stands. For a propeller it is the word that ignition is off: hands may go on at
 * once.
 */
export function authorised(
  state: SessionState,
  service: Service,
  engine: number | null,
  event: SessionEvent,
  signal: number,
): SessionState {
  const by = said(event, null);
  if (service === "handlePropeller") {
    return engine === null ? state : { ...state, handling: { engine, by } };
  }
  const authority = { signal, at: event.at, epoch: state.epoch, name: by.name };
  return { ...state, authorities: { ...state.authorities, [service]: authority } };
}
