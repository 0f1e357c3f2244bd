import type { Plant } from "./plant.ts";

/** The hands of whoever works one engine. */
export interface EngineControls {
  starter: boolean;
  /** The primer is worked: one stroke, or one second, in a second. */
  primer: boolean;
  /** Lean to rich, 0 (idle cut-off) to 1. */
  mixture: number;
  /** Closed to open, 0 to 1. */
  throttle: number;
  ignition: boolean;
  boostPump: boolean;
}

export interface Controls {
  engines: Readonly<Record<number, EngineControls>>;
  /** The engine whose vacuum pump is selected. */
  vacuumFrom: number | null;
  generators: boolean;
}

export const HANDS_OFF: EngineControls = {
  starter: false,
  primer: false,
  mixture: 0,
  throttle: 0.1,
  ignition: false,
  boostPump: false,
};

/** The faults of the simulated aircraft at a moment. The script sets it; the simulation only obeys. */
export interface Wrong {
  /** Engines without oil pressure. */
  noOil: readonly number[];
  /** Engines that fire and do not run up. */
  hung: readonly number[];
  /** Engines that do not fire: kicked back, flooded, or burning. */
  dead: readonly number[];
  generatorDead: readonly number[];
  vacuumDead: boolean;
  /** The cart gives this part of its volts; 0 when it or its plug is out. */
  cart: number;
  brakesBleed: boolean;
}

export const NOTHING_WRONG: Wrong = {
  noOil: [],
  hung: [],
  dead: [],
  generatorDead: [],
  vacuumDead: false,
  cart: 1,
  brakesBleed: false,
};

export type Running = "still" | "cranking" | "firing" | "running" | "runningDown";

export interface EngineSim {
  n: number;
  is: Running;
  rpm: number;
  /** Heat of the starter above the air, kelvins; and the most it had. */
  starterK: number;
  hottestK: number;
  starterAmps: number;
  /** Seconds for which it was cranked since it last stood still. */
  crankedS: number;
  /** Strokes of primer in its cylinders that did not burn yet. */
  primed: number;
  oilC: number;
  headC: number;
  oilPsi: number;
  fuelPsi: number;
  /** Seconds for which it turned under its own power without oil pressure. */
  withoutOilS: number;
}

export interface Simulated {
  /** Seconds since it began. */
  t: number;
  engines: readonly EngineSim[];
  busVolts: number;
  suction: number;
  hydraulicPart: number;
  /** Brake pressure as a part of what it was pumped to. */
  brakePart: number;
  generatorAmps: Readonly<Record<number, number>>;
}

/** Returns an aircraft that stood all night. */
export function coldAircraft(plant: Plant): Simulated {
  return {
    t: 0,
    engines: plant.engines.map(({ n }) => ({
      n,
      is: "still",
      rpm: 0,
      starterK: 0,
      hottestK: 0,
      starterAmps: 0,
      crankedS: 0,
      primed: 0,
      oilC: plant.airC,
      headC: plant.airC,
      oilPsi: 0,
      fuelPsi: 0,
      withoutOilS: 0,
    })),
    busVolts: plant.batteries.openCircuit,
    suction: 0,
    hydraulicPart: 0,
    brakePart: 1,
    generatorAmps: {},
  };
}
