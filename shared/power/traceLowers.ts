import { envelopeOf } from "../models/electrical/envelopeOf.ts";
import { judgeTrace } from "../models/electrical/groundPowerTrace.ts";
import type { Action } from "../protocol/commands.ts";
import type { SessionState } from "../session/state.ts";

/** Returns true if a meter's record lowers confidence: its volts left the type's limits. */
export function traceLowers(
  state: SessionState,
  { samples, cranking }: Extract<Action, { type: "giveVoltTrace" }>,
): boolean {
  const envelope = envelopeOf(state.type.groundPower);
  if (!envelope) return false;
  const verdict = judgeTrace(
    samples.map(([ms, volts]) => ({ ms, volts })),
    cranking,
    envelope,
  );
  return verdict.ok && verdict.value.kind !== "within";
}
