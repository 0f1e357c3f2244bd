import type { Envelope } from "../models/electrical/envelope.ts";
import { envelopeOf } from "../models/electrical/envelopeOf.ts";
import {
  type Cranking,
  judgeTrace,
  type TraceVerdict,
  type VoltSample,
} from "../models/electrical/groundPowerTrace.ts";
import { type Outcome, refused } from "../models/outcome.ts";
import type { Attribution } from "../session/attribution.ts";
import type { SessionState } from "../session/state.ts";

/** The data by which ground power is judged over time. */
export interface Traced {
  /** `record`: a meter's trace that a person gave. `readings`: volts that people read one by one. */
  from: "record" | "readings";
  samples: readonly VoltSample[];
  cranking: readonly Cranking[];
  /** Server milliseconds of the last sample, and of sample time 0. */
  endedAt: number;
  beganAt: number;
  by: Attribution;
  verdict: Outcome<TraceVerdict>;
}

/** Returns the present trace of the volts; null while power is not on, or when the type gives no envelope. */
export function tracedNow(state: SessionState, now: number): Traced | null {
  const envelope = envelopeOf(state.type.groundPower);
  const power = state.groundPower;
  if (!envelope || power.is !== "on") return null;
  const traced = recordGiven(state, envelope) ?? readOneByOne(state, envelope);
  const oldest = state.type.timing.groundPower.value * 1000;
  if (traced && now - traced.endedAt > oldest) {
    return {
      ...traced,
      verdict: refused(`it ended more than ${oldest / 1000} s ago: it says nothing of now`),
    };
  }
  return traced;
}

/** Returns the newest meter's trace, judged as of the time it was given; null where there is none. */
export function recordGiven(state: SessionState, envelope: Envelope): Traced | null {
  const given = state.voltTrace;
  if (!given) return null;
  const { samples, cranking, endedAt, by } = given;
  const last = samples.at(-1)?.ms ?? 0;
  const verdict = judgeTrace(samples, cranking, envelope);
  return { from: "record", samples, cranking, endedAt, beganAt: endedAt - last, by, verdict };
}

function readOneByOne(state: SessionState, envelope: Envelope): Traced | null {
  const power = state.groundPower;
  if (power.is !== "on") return null;
  const read = power.read ?? [];
  const beganAt = read[0]?.at ?? power.by.at;
  const endedAt = read.at(-1)?.at ?? power.by.at;
  const samples = read.map(({ at, volts }) => ({ ms: at - beganAt, volts }));
  const cranking = state.engines
    .flatMap((e) => e.starter)
    .map(({ on, off }) => ({ from: on - beganAt, to: (off ?? endedAt) - beganAt }))
    .filter((c) => c.to > 0);
  const verdict = judgeTrace(samples, cranking, envelope);
  return { from: "readings", samples, cranking, endedAt, beganAt, by: power.by, verdict };
}
