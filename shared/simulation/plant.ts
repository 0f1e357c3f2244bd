import { openCircuitVolts } from "../models/electrical/battery.ts";
import { internalOhmAt, type Source, sideBySide } from "../models/electrical/sag.ts";
import { wireDrop } from "../models/electrical/wire.ts";
import { type ViscosityLine, viscosityAt, viscosityLine } from "../models/oil/viscosity.ts";
import { primeFor } from "../models/prime.ts";
import type { StarterHeat } from "../models/starterThermal.ts";
import { inUnit } from "../models/units.ts";
import { between } from "../partners/chance.ts";
import type { AircraftType, Gauge } from "../types/schema.ts";

/**
 * The figures of one aircraft that the simulation needs. Where the type gives a figure it is the type's; the rest is
 * our own judgement of a large radial engine (common practice, no source), and is no limit of anything.
 */
export interface Plant {
  type: AircraftType;
  /** The air, degrees Celsius. Everything stood in it all night. */
  airC: number;
  engines: readonly EnginePlant[];
  starter: StarterPlant;
  batteries: Source;
  cart: Source;
  /** Amperes of everything else on the bus. */
  baseAmps: number;
  oil: ViscosityLine;
  /**
   * Pressures of the type, psi: where the relief valve opens, the least of an engine that runs, the first indication,
   * and what a fuel pump brings.
   */
  psi: { relief: number; least: number; first: number; fuel: number };
  /** Strokes or seconds of primer that a cold engine takes here. */
  primeNeeded: number;
}

export interface EnginePlant {
  n: number;
  accessories: readonly string[];
  /** Steady temperatures at idle, degrees Celsius, and the rate of the warm-up, per second. */
  oil: Warming;
  head: Warming;
  /** Viscosity of its oil once that is warm, mm²/s. */
  warmMm2s: number;
  /** Seconds that this engine turns before it fires, properly primed. */
  firesAfterS: number;
  idleRpm: number;
}

/** Newton's law of heating, as the product fits it: T(t) = steady − rise·e^(−rate·t). */
export interface Warming {
  steady: number;
  rate: number;
}

interface StarterPlant {
  /** Resistance of the armature, and its back volts at cranking speed. */
  ohm: number;
  backVolts: number;
  /** Revolutions per minute of the engine at which it draws its steady current. */
  rpm: number;
  heat: StarterHeat;
}

/** A starter of a type that gives no figures: a few hundred amperes, as such motors draw. Common practice, no source. */
const BREAKAWAY_A = 600;
const STEADY_A = 240;
/** Revolutions per minute of an engine on its starter. Common practice, no source. */
const CRANKING_RPM = 120;
/** Part of the steady heat's data of a type that gives none. */
const HEAT: StarterHeat = { steady: 300, tauOn: 180, tauOff: 300 };
/** Lights, radios, instruments. */
const BASE_A = 25;
/** Seconds over which oil and cylinders warm up. */
const OIL_TAU_S = 200;
const HEAD_TAU_S = 110;
/** Part of the way from its gate to its normal band at which a gauge settles at idle. */
const SETTLES = 0.6;
/** SAE 50, for a type that names no oil. From memory. */
const SAE_50 = [
  { degC: 40, mm2s: 212 },
  { degC: 100, mm2s: 19.5 },
] as const;

const gaugeOf = (type: AircraftType, id: string): Gauge | undefined => type.gauges.find((g) => g.id === id);

const celsius = (value: number, unit: Gauge["unit"]) => inUnit({ value, unit }, "degC");

/** Returns the figures of an aircraft of this type, drawn by the seed where nature would scatter them. */
export function plantOf(type: AircraftType, seed: number, airC: number): Plant {
  const [thick, thin] = type.oil.grade?.points ?? SAE_50;
  const line = viscosityLine(thick, thin);
  if (!line.ok) throw new Error(`the oil of ${type.id}: ${line.why}`);
  const idle = type.idle?.[0]?.rpm.value ?? 1000;
  const warming = (id: string, n: number, tau: number, otherwise: number): Warming => ({
    steady: settlesAt(type, id, otherwise) * between(0.97, 1.03, seed, "steady", id, n),
    rate: 1 / (tau * between(0.85, 1.15, seed, "tau", id, n)),
  });
  const prime = type.prime && primeFor(type.prime, { value: airC, unit: "degC" }, null);
  const batteries = batteriesOf(type, airC);
  const cart = cartOf(type);
  return {
    type,
    airC,
    engines: type.engines.map(({ n, accessories }) => {
      const oil = warming("oilTemp", n, OIL_TAU_S, 60);
      return {
        n,
        accessories,
        oil,
        head: warming("headTemp", n, HEAD_TAU_S, 150),
        warmMm2s: viscosity(line.value, oil.steady),
        firesAfterS: between(3, 7, seed, "fires", n),
        idleRpm: idle * between(0.98, 1.02, seed, "idle", n),
      };
    }),
    starter: starterOf(type, cart),
    batteries,
    cart,
    baseAmps: BASE_A,
    oil: line.value,
    psi: pressuresOf(type),
    primeNeeded: prime?.ok ? prime.value.amount.value : 4,
  };
}

/** Returns the viscosity of an oil at a temperature, mm²/s. */
export function viscosity(oil: ViscosityLine, degC: number): number {
  const read = viscosityAt(oil, Math.min(200, Math.max(-60, degC)));
  return read.ok ? read.value.mm2s : Number.NaN;
}

function pressuresOf(type: AircraftType): Plant["psi"] {
  const oil = gaugeOf(type, "oilPressure");
  return {
    relief: oil ? inUnit({ value: oil.normalHigh ?? oil.max ?? 90, unit: oil.unit }, "psi") : 90,
    least: inUnit(type.oil.normal.atLeast, "psi"),
    first: inUnit(type.oil.firstIndication.atLeast, "psi"),
    fuel: fuelNormal(type),
  };
}

function fuelNormal(type: AircraftType): number {
  const gauge = gaugeOf(type, "fuelPressure");
  if (!gauge) return 15;
  const low = gauge.normalLow ?? gauge.min ?? gauge.scale.from;
  const high = gauge.normalHigh ?? gauge.max ?? gauge.scale.to;
  return inUnit({ value: (low + high) / 2, unit: gauge.unit }, "psi");
}

/** Returns where a temperature settles at idle: above its warm-up's gate, and inside its limits. */
function settlesAt(type: AircraftType, id: string, otherwise: number): number {
  const gauge = gaugeOf(type, id);
  if (!gauge) return otherwise;
  const gate = type.warmUp.find((w) => w.gauge === id && "atLeast" in w);
  const low =
    gate && "atLeast" in gate
      ? inUnit(gate.atLeast, "degC")
      : celsius(gauge.min ?? gauge.normalLow ?? 40, gauge.unit);
  const normal = celsius(gauge.normalLow ?? gauge.normalHigh ?? gauge.scale.to, gauge.unit);
  const high = celsius(gauge.normalHigh ?? gauge.max ?? gauge.scale.to, gauge.unit);
  const aim = normal > low + 10 ? low + SETTLES * (normal - low) : low + 0.25 * Math.max(20, high - low);
  return Math.min(aim, high);
}

function batteriesOf(type: AircraftType, airC: number): Source {
  const lead = type.electrical?.leadOhm?.value ?? 0.001;
  const all = (type.electrical?.batteries ?? []).flatMap((b) => {
    const open = openCircuitVolts(b.cell, 0.95, airC);
    const rows = b.ohms.rows;
    const ohm = internalOhmAt(rows, Math.min(Math.max(airC, rows[0]?.[0] ?? airC), rows.at(-1)?.[0] ?? airC));
    return open.ok && ohm.ok ? [{ openCircuit: open.value, ohm: ohm.value }] : [];
  });
  // Two batteries of 24 V with 10 mΩ each, for a type that gives none. Common practice, no source.
  return sideBySide(
    all.length > 0
      ? all
      : [
          { openCircuit: 25.2, ohm: 0.01 },
          { openCircuit: 25.2, ohm: 0.01 },
        ],
    lead,
  );
}

function cartOf(type: AircraftType): Source {
  const { steadyMin, steadyMax } = type.groundPower;
  const openCircuit = (inUnit(steadyMin, "V") + 3 * inUnit(steadyMax, "V")) / 4;
  const internalOhm = type.electrical?.cart?.internalOhm?.value ?? 0.004;
  return { openCircuit, internalOhm, cableOhm: cableOhm(type) };
}

/** Returns the ohms of the cart's cable: its drop per ampere, by the product's own wire table. */
function cableOhm(type: AircraftType): number {
  const cart = type.electrical?.cart;
  const drop = cart && wireDrop(cart.size, { feet: inUnit(cart.length, "ft"), amps: 1 }, cart.parallel);
  return drop?.ok ? drop.value : 0.002;
}

/** Returns the motor that draws the type's two currents on this source, at standstill and once it turns. */
function starterOf(type: AircraftType, source: Source): StarterPlant {
  const rules = type.electrical?.starter;
  const breakaway = rules?.breakaway.value ?? BREAKAWAY_A;
  const steady = rules?.steady.value ?? STEADY_A;
  const sourceOhm = source.internalOhm + source.cableOhm;
  const ohm = Math.max(0.002, source.openCircuit / breakaway - sourceOhm);
  const { heat } = type.starter;
  return {
    ohm,
    backVolts: Math.max(0, source.openCircuit - steady * (ohm + sourceOhm)),
    rpm: CRANKING_RPM,
    heat: heat ? { steady: heat.steady.value, tauOn: heat.tauOn.value, tauOff: heat.tauOff.value } : HEAT,
  };
}
