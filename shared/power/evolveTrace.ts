import { inUnit } from "../models/units.ts";
import type { FactOf, SessionEvent } from "../protocol/events.ts";
import type { Quantity } from "../protocol/quantity.ts";
import { attributionOf } from "../session/attribute.ts";
import type { GroundPower, SessionState } from "../session/state.ts";

/** Most single volts readings to keep: older ones say nothing of the present. */
const READ_KEPT = 60;

/** Returns the state with a meter's trace; the newest counts. */
export function evolveVoltTrace(
  state: SessionState,
  event: SessionEvent,
  { samples, cranking, endedAt }: FactOf<"voltTraceGiven">,
): SessionState {
  const voltTrace = {
    by: attributionOf(event, null),
    endedAt,
    samples: samples.map(([ms, volts]) => ({ ms, volts })),
    cranking: cranking.map((c) => ({ ...c })),
  };
  return { ...state, voltTrace };
}

/** Returns the volts read since power came on, if the type judges them over time. */
export function readSince(state: SessionState, volts: Quantity, at: number): Pick<On, "read"> {
  if (state.type.groundPower.transients === undefined) return {};
  const before = state.groundPower.is === "on" ? (state.groundPower.read ?? []) : [];
  // Of two readings at one moment the later counts, because a trace needs times that rise.
  const earlier = before.filter((r) => r.at < at);
  return { read: [...earlier, { at, volts: inUnit(volts, "V") }].slice(-READ_KEPT) };
}

type On = Extract<GroundPower, { is: "on" }>;

/** Returns the state without its trace: a trace belongs to the power from which it was taken. */
export function withoutTrace({ voltTrace: _gone, ...state }: SessionState): SessionState {
  return state;
}
