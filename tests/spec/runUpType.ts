import type { AircraftType } from "../../shared/types/schema.ts";
import { FOUR } from "./aircraft.ts";

const source = { basis: "invented", text: "for tests" } as const;
const limit = <U extends string>(value: number, unit: U) => ({ value, unit, source });
const gauge = (id: string, unit: "inHg" | "rpm", to: number) =>
  ({ id, name: id, unit, perEngine: true, scale: { from: 0, to, step: 1 }, source }) as const;
export const runUp: NonNullable<AircraftType["runUp"]> = {
  magneto: { maxDrop: limit(100, "rpm"), maxDifference: limit(40, "rpm") },
  feather: { maxDrop: limit(100, "rpm"), recovery: limit(40, "rpm") },
  manifold: {
    spread: limit(1, "inHg"),
    rpmTolerance: limit(20, "rpm"),
    pressureGauge: "manifold",
    speedGauge: "rpm",
  },
  gauges: [],
};
/** The run-up of a type whose propellers do not feather. */
const { feather: _feather, ...rest } = runUp;
export const unfeathered: NonNullable<AircraftType["runUp"]> = rest;
/** Four engines with a run-up of all three checks. */
export const RUN_UP: AircraftType = {
  ...FOUR,
  runUp,
  gauges: [...FOUR.gauges, gauge("manifold", "inHg", 60), gauge("rpm", "rpm", 3000)],
};
