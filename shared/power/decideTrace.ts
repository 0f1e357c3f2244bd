import { envelopeOf } from "../models/electrical/envelopeOf.ts";
import type { Action } from "../protocol/commands.ts";
import type { SessionState } from "../session/state.ts";
import { accept, type Context, refuse, type Verdict } from "../session/verdict.ts";

/** A meter's record of the volts, of the power that is on: whole, in order of time, no longer than power has been on. */
export function decideVoltTrace(
  state: SessionState,
  action: Extract<Action, { type: "giveVoltTrace" }>,
  { now }: Context,
): Verdict {
  if (state.groundPower.is !== "on") return refuse("powerNotOn");
  if (!envelopeOf(state.type.groundPower)) return refuse("noEnvelope");
  const { samples, cranking, endedAgoMs } = action;
  const rises = samples.every(([ms], i) => i === 0 || ms > (samples[i - 1]?.[0] ?? 0));
  if (!rises) return refuse("outOfRange", { found: "times that rise from one sample to the next" });
  const last = samples.at(-1)?.[0] ?? 0;
  if (cranking.some((c) => !(c.from < c.to && c.to <= last)))
    return refuse("outOfRange", { found: `0 to ${last / 1000} s, begun before it ended` });
  return accept({ type: "voltTraceGiven", samples, cranking, endedAt: now - endedAgoMs });
}
