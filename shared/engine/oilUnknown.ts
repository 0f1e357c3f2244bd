import { oilLimitsAt } from "../models/oil/oilBands.ts";
import type { SessionState } from "../session/state.ts";
import { airTemperature } from "../weather/air.ts";
import { type Engine, plain } from "./life.ts";

/**
 * Returns true for an engine that was shut down past an oil limit of its last start, without a reading of normal
 * pressure since.
 */
export function stoppedWithoutOil(state: SessionState, engine: Engine): boolean {
  const on = engine.starter.at(-1)?.on;
  if (plain(engine.life).is !== "shutDown" || on === undefined) return false;
  const late = engine.exceeded.some((x) => x.at >= on && x.limit !== "starterTime");
  return late && !isNormal(state, engine, on);
}

/** Returns true while an alert of missing oil pressure at this engine, or the drill that it opened, is open. */
export function oilAlertStands(state: SessionState, n: number): boolean {
  const isOil = (kind: string) => kind === "oilFirstLate" || kind === "oilNormalLate";
  const drills = state.type.drills.filter((d) =>
    d.triggers.some((t) => t === "alert:oilFirstLate" || t === "alert:oilNormalLate"),
  );
  return (
    state.alerts.some((a) => a.engine === n && isOil(a.kind)) ||
    state.drills.some((r) => r.engine === n && drills.some((d) => d.id === r.drill))
  );
}

function isNormal(state: SessionState, engine: Engine, since: number): boolean {
  const read = engine.readings.oilPressure;
  const { normal } = oilLimitsAt(state.type.oil, airTemperature(state));
  return read !== undefined && read.at >= since && read.value >= normal.atLeast.value;
}
