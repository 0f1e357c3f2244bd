import { convert } from "../models/units.ts";
import type { Quantity, Unit } from "../protocol/quantity.ts";
import type { Gauge } from "../types/schema.ts";
import { manifoldInHg } from "./engine.ts";
import type { Plant } from "./plant.ts";
import type { EngineSim, Simulated } from "./state.ts";

/**
 * Returns what a gauge shows, to the instrument's step; null for a gauge that the simulation knows nothing of.
 * @param engine null for a gauge of the whole aircraft
 */
export function gaugeShows(
  plant: Plant,
  now: Simulated,
  gauge: string,
  engine: number | null,
): Quantity | null {
  const gauged = plant.type.gauges.find((g) => g.id === gauge);
  if (!gauged) return null;
  const one = now.engines.find((e) => e.n === engine);
  const raw = gauged.perEngine ? one && ofEngine(plant, now, gauge, one) : ofAircraft(now, gauged);
  if (!raw) return null;
  const shown = convert(raw, gauged.unit);
  return shown.ok ? stepped(shown.value.value, gauged) : null;
}

function ofEngine(plant: Plant, now: Simulated, gauge: string, one: EngineSim): Quantity | null {
  const shows = (value: number, unit: Unit): Quantity => ({ value, unit });
  if (gauge === "oilPressure") return shows(one.oilPsi, "psi");
  if (gauge === "oilTemp") return shows(one.oilC, "degC");
  if (gauge === "headTemp") return shows(one.headC, "degC");
  if (gauge === "fuelPressure") return shows(one.fuelPsi, "psi");
  if (gauge === "rpm") return shows(one.rpm, "rpm");
  const engine = plant.engines.find(({ n }) => n === one.n);
  if (engine && gauge === plant.type.runUp?.manifold.pressureGauge)
    return shows(manifoldInHg(engine, one), "inHg");
  if (gauge === "generatorLoad") return shows(now.generatorAmps[one.n] ?? 0, "A");
  return null;
}

function ofAircraft(now: Simulated, gauge: Gauge): Quantity | null {
  const middle =
    ((gauge.normalLow ?? gauge.min ?? gauge.scale.from) + (gauge.normalHigh ?? gauge.max ?? gauge.scale.to)) /
    2;
  if (gauge.id === "busVolts") return { value: now.busVolts, unit: "V" };
  if (gauge.id === "suction") return { value: middle * now.suction, unit: gauge.unit };
  if (gauge.id === "hydraulic") return { value: middle * now.hydraulicPart, unit: gauge.unit };
  return null;
}

function stepped(value: number, { scale, unit }: Gauge): Quantity {
  const to = Math.min(scale.to, Math.max(scale.from, Math.round(value / scale.step) * scale.step));
  return { value: Number(to.toFixed(3)), unit };
}
