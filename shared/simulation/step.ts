import { type Bus, type Feed, type Load, solveBus } from "./bus.ts";
import { stepEngine, towards } from "./engine.ts";
import type { Plant } from "./plant.ts";
import { type Controls, type EngineSim, HANDS_OFF, type Simulated, type Wrong } from "./state.ts";

/** Seconds of the longest step. A longer time is cut into steps of it, so that the same times give the same run. */
const STEP_S = 0.1;
/** A generator behind its regulator, and the speed from which it gives. Common practice, no source. */
const GENERATOR = { openCircuit: 28.2, internalOhm: 0.004, cableOhm: 0.001, fromRpm: 800 } as const;
/** Seconds in which the vacuum, the hydraulics and bled brakes follow. Our own judgement. */
const TAU = { vacuum: 4, hydraulics: 5, hydraulicsBleed: 120, brakesBleed: 25 } as const;

/** The source of current beside the generators. */
export interface Supply {
  /** The cart's plug is in and its output on. */
  cart: boolean;
  batteries: boolean;
}

/** Returns the aircraft `seconds` later. Pure: the same aircraft, hands and times give the same to the last bit. */
export function stepAircraft(
  plant: Plant,
  before: Simulated,
  hands: Controls,
  supply: Supply,
  wrong: Wrong,
  seconds: number,
): Simulated {
  const steps = Math.max(1, Math.round(seconds / STEP_S));
  const dt = seconds / steps;
  const quiet = new Map<number, Bus>();
  const step = (from: Simulated) => oneStep(plant, from, hands, supply, wrong, dt, quiet);
  let now = step(before);
  const still = isUnmoved(before, now);
  for (let i = 1; i < steps; i += 1) now = still ? { ...now, t: now.t + dt } : step(now);
  return now;
}

/** Returns true when a step moved nothing that the next one depends on: then that one moves nothing either. */
function isUnmoved(before: Simulated, now: Simulated): boolean {
  return (
    now.engines.every((engine, i) => engine === before.engines[i]) &&
    now.suction === before.suction &&
    now.hydraulicPart === before.hydraulicPart &&
    now.brakePart === before.brakePart
  );
}

/** @param quiet the buses without a starter that these hands had before, by the number of generators */
function oneStep(
  plant: Plant,
  before: Simulated,
  hands: Controls,
  supply: Supply,
  wrong: Wrong,
  dt: number,
  quiet: Map<number, Bus>,
): Simulated {
  const handsOn = (n: number) => hands.engines[n] ?? HANDS_OFF;
  const generating = hands.generators
    ? before.engines.filter(
        ({ n, is, rpm }) =>
          is === "running" &&
          rpm >= GENERATOR.fromRpm &&
          !wrong.generatorDead.includes(n) &&
          carries(plant, n, "generator"),
      )
    : [];
  const cranked = before.engines.filter(({ n }) => handsOn(n).starter);
  const known = cranked.length === 0 ? quiet.get(generating.length) : undefined;
  const bus = known ?? busOf(plant, supply, wrong, generating.length, cranked);
  if (cranked.length === 0) quiet.set(generating.length, bus);
  const engines = before.engines.map((engine, i) => {
    const own = plant.engines[i];
    if (!own) throw new Error("every engine has its figures");
    const power = { volts: bus.volts, amps: bus.motors[cranked.indexOf(engine)] ?? 0 };
    return stepEngine(plant, own, engine, handsOn(engine.n), wrong, power, dt);
  });
  const drives = (accessory: string, only: number | null) =>
    engines.some(
      ({ n, is }) => is === "running" && (only === null || n === only) && carries(plant, n, accessory),
    );
  const draws = !wrong.vacuumDead && drives("vacuumPump", hands.vacuumFrom);
  const first = bus.feeds.length - generating.length;
  return {
    t: before.t + dt,
    engines,
    busVolts: bus.volts,
    suction: towards(before.suction, draws ? 1 : 0, TAU.vacuum, dt),
    hydraulicPart: drives("hydraulicPump", null)
      ? towards(before.hydraulicPart, 1, TAU.hydraulics, dt)
      : towards(before.hydraulicPart, 0, TAU.hydraulicsBleed, dt),
    brakePart: wrong.brakesBleed ? towards(before.brakePart, 0, TAU.brakesBleed, dt) : 1,
    generatorAmps: Object.fromEntries(generating.map(({ n }, i) => [n, bus.feeds[first + i] ?? 0])),
  };
}

const carries = ({ engines }: Plant, n: number, accessory: string): boolean =>
  engines.some((e) => e.n === n && e.accessories.includes(accessory));

/** Returns the bus with so many generators on it and the starters of these engines. */
function busOf(
  plant: Plant,
  supply: Supply,
  wrong: Wrong,
  generators: number,
  cranked: readonly EngineSim[],
): Bus {
  const feeds = feedsOf(plant, supply, wrong, generators);
  if (feeds.length === 0) return { volts: 0, feeds: [], motors: [] };
  const loads: Load[] = [
    { is: "steady", amps: plant.baseAmps },
    ...cranked.map(({ rpm }): Load => {
      const part = Math.min(1, rpm / plant.starter.rpm);
      return { is: "motor", ohm: plant.starter.ohm, backVolts: plant.starter.backVolts * part };
    }),
  ];
  return solveBus(feeds, loads);
}

/** Returns what feeds the bus: batteries, the cart, and each generator, in this order. */
function feedsOf(plant: Plant, supply: Supply, wrong: Wrong, generators: number): Feed[] {
  const feeds: Feed[] = [];
  if (supply.batteries) feeds.push(plant.batteries);
  if (supply.cart && wrong.cart > 0)
    feeds.push({ ...plant.cart, openCircuit: plant.cart.openCircuit * wrong.cart });
  for (let i = 0; i < generators; i += 1) feeds.push(GENERATOR);
  return feeds;
}
