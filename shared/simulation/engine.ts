import { heatAtRest, heatEngaged } from "../models/starterThermal.ts";
import { type EnginePlant, type Plant, viscosity, type Warming } from "./plant.ts";
import type { EngineControls, EngineSim, Running, Wrong } from "./state.ts";

/** Parts of the prime it needs below which an engine does not fire, and above which it is flooded. Common practice. */
const STARVED = 0.6;
const FLOODED = 2;
/** Strokes that a turning engine blows out in a second with the mixture at cut-off. Our own judgement. */
const BLOWN_OUT = 0.6;
/** Strokes that burn in a second once it fires. Our own judgement. */
const BURNT = 0.8;
/** Mixture from which the engine draws fuel of its own. */
const DRAWS = 0.3;
/** Seconds in which the starter, the engine on its own fuel, and a stopping propeller come to their speed. */
const TAU = { starter: 0.6, runUp: 1.2, down: 2.5 } as const;
/** A hung engine's speed, revolutions per minute. Common practice, no source. */
const HUNG_RPM = 420;
/** Rise of speed from a closed throttle to an open one. */
const THROTTLE_RPM = 1600;
/** Viscosity at which cranking is half as fast. Our own judgement. */
const HALF_SPEED_MM2S = 12_000;

/** Static pressure of the rehearsal's field, inHg: the standard atmosphere at sea level (ICAO Doc 7488). */
const FIELD_INHG = 29.92;
/** Manifold pressure of an engine at idle, inHg. Common practice, no source. */
const IDLE_INHG = 12;

/** Returns a first-order step towards an aim. It is exact for a constant aim, whatever the length of the step. */
export const towards = (from: number, aim: number, tau: number, dt: number): number =>
  aim + (from - aim) * Math.exp(-dt / tau);

/** Returns a temperature after one step of Newton's law; the same law, and so the same figures, as the product fits. */
const warmed = (from: number, { steady, rate }: Warming, dt: number): number =>
  towards(from, steady, 1 / rate, dt);

const isRunning = (is: Running): boolean => is === "firing" || is === "running";

/**
 * Returns the pressure at which the oil settles, psi: it rises with speed and viscosity up to the relief valve. Set so
 * that a warm engine at idle shows half as much again as the type's least.
 */
export function oilSettles(plant: Plant, engine: EnginePlant, rpm: number, oilMm2s: number): number {
  const part = (rpm / engine.idleRpm) * Math.sqrt(oilMm2s / engine.warmMm2s);
  return Math.min(plant.psi.relief, 1.5 * plant.psi.least * part);
}

/**
 * Returns an engine's manifold pressure, inHg: the field's while it does not run (FAA-H-8083-32, chapter 10), and while
 * it runs in proportion to the speed between idle and an open throttle.
 */
export function manifoldInHg({ idleRpm }: EnginePlant, { is, rpm }: EngineSim): number {
  if (!isRunning(is)) return FIELD_INHG;
  const open = Math.min(1, Math.max(0, (rpm - idleRpm) / THROTTLE_RPM));
  return IDLE_INHG + (FIELD_INHG - IDLE_INHG) * open;
}

/** Seconds in which oil pressure follows: thick oil takes longer to fill its galleries. Our own judgement. */
const oilTau = (oilMm2s: number): number => 1 + oilMm2s / 1500;

/** An engine that stands cold and that nobody touches stays as it is: most engines do, most of the time. */
function isAtRest(plant: Plant, now: EngineSim, hands: EngineControls): boolean {
  if (now.is !== "still" || now.rpm !== 0) return false;
  const touched = hands.starter || hands.primer || hands.boostPump;
  const cold = now.oilC === plant.airC && now.headC === plant.airC && now.starterK === 0;
  const empty = now.oilPsi === 0 && now.fuelPsi === 0 && now.starterAmps === 0 && now.crankedS === 0;
  return !touched && cold && empty;
}

/** Returns one engine after a step. `volts`, `amps`: the bus, and what its starter draws, over this step. */
export function stepEngine(
  plant: Plant,
  engine: EnginePlant,
  before: EngineSim,
  hands: EngineControls,
  wrong: Wrong,
  { volts, amps }: { volts: number; amps: number },
  dt: number,
): EngineSim {
  if (isAtRest(plant, before, hands)) return before;
  const heat = hands.starter
    ? heatEngaged(plant.starter.heat, before.starterK, dt)
    : heatAtRest(plant.starter.heat, before.starterK, dt);
  const starterK = heat.ok ? heat.value : before.starterK;
  const oilMm2s = viscosity(plant.oil, before.oilC);
  const is = nextIs(plant, engine, before, hands, wrong, volts);
  const rpm = nextRpm(plant, engine, before, is, hands, wrong, { volts, oilMm2s }, dt);
  const own = is === "firing" || is === "running";
  const turns = rpm > 20;
  const oilPsi = wrong.noOil.includes(engine.n)
    ? towards(before.oilPsi, 0, 0.8, dt)
    : towards(before.oilPsi, turns ? oilSettles(plant, engine, rpm, oilMm2s) : 0, oilTau(oilMm2s), dt);
  const cooling = (steady: number): Warming => ({ steady, rate: 1 / 900 });
  const fuelAim = hands.boostPump || rpm > engine.idleRpm / 2 ? plant.psi.fuel : 0;
  return {
    n: engine.n,
    is,
    rpm,
    starterK,
    hottestK: Math.max(before.hottestK, starterK),
    starterAmps: hands.starter ? amps : 0,
    crankedS:
      is === "cranking" && before.rpm > 0 ? before.crankedS + dt : is === "still" ? 0 : before.crankedS,
    primed: primedAfter(before, is, hands, dt),
    oilC: warmed(before.oilC, own ? engine.oil : cooling(plant.airC), dt),
    headC: warmed(before.headC, own ? engine.head : cooling(plant.airC), dt),
    oilPsi,
    fuelPsi: towards(before.fuelPsi, fuelAim, 1, dt),
    withoutOilS: before.withoutOilS + (own && oilPsi < plant.psi.first ? dt : 0),
  };
}

function primedAfter({ primed }: EngineSim, is: Running, hands: EngineControls, dt: number): number {
  const given = primed + (hands.primer ? dt : 0);
  if (is === "firing" || is === "running") return Math.max(0, given - BURNT * dt);
  if (is === "cranking" && hands.mixture < DRAWS && hands.throttle > 0.8)
    return Math.max(0, given - BLOWN_OUT * dt);
  return given;
}

function nextIs(
  plant: Plant,
  engine: EnginePlant,
  { is, rpm, crankedS, primed }: EngineSim,
  hands: EngineControls,
  wrong: Wrong,
  volts: number,
): Running {
  const dead = wrong.dead.includes(engine.n);
  const fed = hands.mixture >= DRAWS && hands.ignition && hands.boostPump;
  const part = plant.primeNeeded > 0 ? primed / plant.primeNeeded : 1;
  switch (is) {
    case "still":
    case "runningDown":
    case "cranking": {
      if (!hands.starter) return rpm > 5 ? "runningDown" : "still";
      const fires = hands.ignition && !dead && part >= STARVED && part <= FLOODED && volts > 8;
      return fires && crankedS >= engine.firesAfterS ? "firing" : "cranking";
    }
    case "firing": {
      if (dead || !hands.ignition) return hands.starter ? "cranking" : "runningDown";
      if (wrong.hung.includes(engine.n)) return fed || hands.starter ? "firing" : "runningDown";
      if (fed && rpm > 0.6 * engine.idleRpm) return "running";
      return fed || primed > 0 ? "firing" : hands.starter ? "cranking" : "runningDown";
    }
    case "running":
      return fed && !dead ? "running" : "runningDown";
  }
}

function nextRpm(
  plant: Plant,
  engine: EnginePlant,
  { rpm }: EngineSim,
  is: Running,
  hands: EngineControls,
  wrong: Wrong,
  { volts, oilMm2s }: { volts: number; oilMm2s: number },
  dt: number,
): number {
  if (isRunning(is)) {
    const open = Math.max(0, hands.throttle - 0.1);
    const aim = wrong.hung.includes(engine.n) ? HUNG_RPM : engine.idleRpm + THROTTLE_RPM * open;
    return towards(rpm, aim, TAU.runUp, dt);
  }
  if (is !== "cranking") return towards(rpm, 0, TAU.down, dt) < 5 ? 0 : towards(rpm, 0, TAU.down, dt);
  const thick = 1 / (1 + oilMm2s / HALF_SPEED_MM2S);
  const aim = plant.starter.rpm * thick * Math.min(1.2, volts / (plant.cart.openCircuit * 0.85));
  return towards(rpm, aim, TAU.starter, dt);
}
