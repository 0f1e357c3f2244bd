// Apart from the decision, so that a panel does not load the reader of reports with its first script.
import type { FactOf, SessionEvent } from "../protocol/events.ts";
import { withFlash } from "../session/reports.ts";
import type { SessionState } from "../session/state.ts";

/**
 * Returns the state after a station's report. It is kept beside the weather that people recorded and answers nothing that
 * a person is asked. Thunder in it counts at once, as thunder in a person's report does.
 */
export function evolveStation(
  state: SessionState,
  { at, seq }: SessionEvent,
  { metar, observedAt, name, thunder }: FactOf<"stationRead">,
): SessionState {
  const warned = thunder ? withFlash(state, { at, miles: null, seq, person: null }) : state;
  return { ...warned, station: { metar, observedAt, at, name } };
}
