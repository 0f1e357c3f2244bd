import { demo } from "../../seed/demo-data.ts";
import { type Plant, plantOf } from "../../shared/simulation/plant.ts";
import {
  type Controls,
  coldAircraft,
  type EngineControls,
  HANDS_OFF,
  NOTHING_WRONG,
  type Simulated,
  type Wrong,
} from "../../shared/simulation/state.ts";
import { type Supply, stepAircraft } from "../../shared/simulation/step.ts";
import type { AircraftType } from "../../shared/types/schema.ts";

export const TYPES: readonly AircraftType[] = demo.types;
export const typeWith = (engines: number): AircraftType => {
  const type = TYPES.find((t) => t.engines.length === engines);
  if (!type) throw new Error(`the demo has no type of ${engines} engines`);
  return type;
};

/** One simulated aircraft with somebody's hands on it. */
export class Rig {
  readonly plant: Plant;
  now: Simulated;
  hands: Controls = { engines: {}, vacuumFrom: null, generators: true };
  supply: Supply = { cart: true, batteries: true };
  wrong: Wrong = NOTHING_WRONG;

  constructor(type = typeWith(4), seed = 1, airC = 12) {
    this.plant = plantOf(type, seed, airC);
    this.now = coldAircraft(this.plant);
  }

  set(n: number, hands: Partial<EngineControls>): this {
    const before = this.hands.engines[n] ?? HANDS_OFF;
    this.hands = { ...this.hands, engines: { ...this.hands.engines, [n]: { ...before, ...hands } } };
    return this;
  }

  run(seconds: number): this {
    this.now = stepAircraft(this.plant, this.now, this.hands, this.supply, this.wrong, seconds);
    return this;
  }

  engine(n: number) {
    const one = this.now.engines.find((e) => e.n === n);
    if (!one) throw new Error(`no engine ${n}`);
    return one;
  }

  /** Starts an engine as a good cockpit does, with this part of the prime it needs. */
  start(n: number, primePart = 1): this {
    this.set(n, { boostPump: true, primer: true }).run(this.plant.primeNeeded * primePart);
    this.set(n, { primer: false, starter: true, ignition: true });
    for (let s = 0; s < 15 && this.engine(n).is !== "firing"; s += 1) this.run(1);
    this.set(n, { mixture: 0.8, starter: false });
    return this.run(6);
  }
}
