import { inUnit } from "../models/units.ts";
import type { FactOf, SessionEvent } from "../protocol/events.ts";
import type { Quantity } from "../protocol/quantity.ts";
import { said } from "../session/attribute.ts";
import type { GroundPower, SessionState } from "../session/state.ts";

/** Volts read one by one that are kept: older ones are no part of what happens now. */
const READ_KEPT = 60;

/** A meter's record was given: the newest counts. */
export function evolveVoltTrace(
  state: SessionState,
  event: SessionEvent,
  { samples, cranking, endedAt }: FactOf<"voltTraceGiven">,
): SessionState {
  const voltTrace = {
    by: said(event, null),
    endedAt,
    samples: samples.map(([ms, volts]) => ({ ms, volts })),
    cranking: cranking.map((c) => ({ ...c })),
  };
  return { ...state, voltTrace };
}

/** Volts read since power came on, kept where the type judges them over time. */
export function readSince(state: SessionState, volts: Quantity, at: number): Pick<On, "read"> {
  if (state.type.groundPower.transients === undefined) return {};
  const before = state.groundPower.is === "on" ? (state.groundPower.read ?? []) : [];
  // Two readings of one moment are no course: the later stands.
  const earlier = before.filter((r) => r.at < at);
  return { read: [...earlier, { at, volts: inUnit(volts, "V") }].slice(-READ_KEPT) };
}

type On = Extract<GroundPower, { is: "on" }>;

/** A record belongs to the power it was taken of. */
export function withoutTrace({ voltTrace: _gone, ...state }: SessionState): SessionState {
  return state;
}
