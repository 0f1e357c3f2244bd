import { plain } from "../engine/life.ts";
import type { Quantity } from "../protocol/quantity.ts";
import type { Attribution } from "../session/attribution.ts";
import type { SessionState } from "../session/state.ts";
import type { Limit } from "../types/limit.ts";

/** The verdict on ground power's volts now. */
export interface GroundPowerVerdict {
  within: boolean;
  /** The band that applies: the starting band while an engine cranks, if the type has one. */
  band: "steady" | "starting";
  min: Limit;
  max: Limit;
  volts: Quantity;
  by: Attribution;
}

type On = Extract<SessionState["groundPower"], { is: "on" }>;

/**
 * The last volts read while an engine cranked, where they were outside the starting band and no volts have been read
 * in band since: what was read before the cranking says nothing any more.
 */
export function voltsInDoubt(state: SessionState): NonNullable<On["cranking"]> | null {
  const power = state.groundPower;
  const { starting } = state.type.groundPower;
  if (power.is !== "on" || !starting || !power.cranking) return null;
  const { value, unit } = power.cranking.volts;
  const within = unit === starting.min.unit && value >= starting.min.value && value <= starting.max.value;
  return within ? null : power.cranking;
}

/** Null when ground power is not on. Volts read before the cranking began are steady volts still, unless in doubt. */
export function groundPowerVerdict(state: SessionState): GroundPowerVerdict | null {
  const power = state.groundPower;
  if (power.is !== "on") return null;
  const { steadyMin, steadyMax, starting } = state.type.groundPower;
  const since = crankingSince(state);
  const seen = power.cranking;
  const ofNow = since !== null && seen && seen.by.at >= since;
  const read = starting && seen && (ofNow || voltsInDoubt(state)) ? { starting, seen } : null;
  const [min, max] = read ? [read.starting.min, read.starting.max] : [steadyMin, steadyMax];
  const { volts, by } = read ? read.seen : power;
  const within = volts.unit === min.unit && volts.value >= min.value && volts.value <= max.value;
  return { within, band: read ? "starting" : "steady", min, max, volts, by };
}

function crankingSince(state: SessionState): number | null {
  const since = state.engines.flatMap((e) => {
    const life = plain(e.life);
    return life.is === "cranking" ? [life.since] : [];
  });
  return since.length === 0 ? null : Math.min(...since);
}
