import { type Engine, isTurning } from "../engine/life.ts";
import {
  type EngineRunUp,
  type ReleaseFault,
  type ReleaseVerdict,
  readyForRelease,
} from "../models/runUp/release.ts";
import type { RunUpItem } from "../protocol/commands.ts";
import type { Quantity } from "../protocol/quantity.ts";
import type { Reading } from "../session/attribution.ts";
import type { SessionState } from "../session/state.ts";
import type { AircraftType, Gauge } from "../types/schema.ts";
import { CHECK_ITEMS, type RunUpCheck } from "./checkItems.ts";
import type { RunUpFault } from "./fault.ts";

/** Returns the checks of a type's run-up; none where it has no rules. */
export function runUpChecks(type: AircraftType): RunUpCheck[] {
  if (!type.runUp) return [];
  return type.runUp.feather ? ["power", "magneto", "feather"] : ["power", "magneto"];
}

/** Returns the gauge of an item; undefined where the type's run-up has no such item. */
export function itemGauge(type: AircraftType, item: RunUpItem): Gauge | undefined {
  const rules = type.runUp;
  if (!rules || (item.startsWith("feather") && !rules.feather)) return undefined;
  const id = item === "powerManifold" ? rules.manifold.pressureGauge : rules.manifold.speedGauge;
  return type.gauges.find((g) => g.id === id);
}

/** Returns the run-up of every turning engine against the type's rules; null where the type has none. */
export function releaseVerdict(state: SessionState): ReleaseVerdict | null {
  const rules = state.type.runUp;
  if (!rules) return null;
  const since = state.stage === "warmUp" ? state.stageSince : 0;
  const engines = state.engines.filter((e) => isTurning(e.life)).map((e) => runUpOf(e, since));
  return readyForRelease(engines, fresh(state.readings, since), {
    gauges: state.type.gauges.filter((g) => rules.gauges.includes(g.id)),
    magneto: { maxDrop: rules.magneto.maxDrop.value, maxDifference: rules.magneto.maxDifference.value },
    feather: rules.feather
      ? { maxDrop: rules.feather.maxDrop.value, recovery: rules.feather.recovery.value }
      : null,
    manifold: { limit: rules.manifold.spread, rpmTolerance: rules.manifold.rpmTolerance.value },
  });
}

/** Returns what is known of one engine: a check counts once all of its figures are read. */
function runUpOf(engine: Engine, since: number): EngineRunUp {
  const all = (check: RunUpCheck) => {
    const values = CHECK_ITEMS[check].map((item) => engine.runUp?.[item]?.value);
    return values.every((v) => v !== undefined) ? (values as number[]) : null;
  };
  const [power, magneto, feather] = [all("power"), all("magneto"), all("feather")];
  const at = (list: number[], i: number) => list[i] ?? Number.NaN;
  return {
    engine: engine.n,
    gauges: fresh(engine.readings, since),
    power: power && { manifoldInHg: at(power, 0), rpm: at(power, 1) },
    magneto: magneto && { both: at(magneto, 0), left: at(magneto, 1), right: at(magneto, 2) },
    feather: feather && { before: at(feather, 0), lowest: at(feather, 1), after: at(feather, 2) },
  };
}

/** Drops readings from before the warm-up, because they say nothing of the run-up. */
function fresh(readings: Readonly<Record<string, Reading>>, since: number): Record<string, Quantity> {
  return Object.fromEntries(
    Object.entries(readings)
      .filter(([, r]) => r.at >= since)
      .map(([id, { value, unit }]) => [id, { value, unit }]),
  );
}

/** Returns a fault of the release as the fault of a check or a gauge. */
export function runUpFault(fault: ReleaseFault): RunUpFault {
  const { engine } = fault;
  switch (fault.code) {
    case "gauge":
      return { engine, of: { gauge: fault.gauge }, what: fault.band };
    case "gaugeNotRead":
      return { engine, of: { gauge: fault.gauge }, what: "notRead" };
    case "gaugeUnreadable":
      return { engine, of: { gauge: fault.gauge }, what: "unreadable" };
    case "magneto":
    case "feather":
      return { engine, of: { check: fault.code }, what: fault.fault };
    case "notDone":
      return { engine, of: { check: fault.check }, what: "notDone" };
    case "unreadable":
      return { engine, of: { check: fault.check }, what: "unreadable" };
    case "manifoldSpread":
      return { engine, of: { check: "power" }, what: "spread" };
  }
}
