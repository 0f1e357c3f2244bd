import type { Limit } from "../../types/limit.ts";
import { found, type Outcome, refused } from "../outcome.ts";

/** One engine's reading at the common speed. */
export interface PowerReading {
  engine: number;
  manifoldInHg: number;
  rpm: number;
}

export interface PressureSpread {
  spread: number;
  highest: number;
  lowest: number;
  within: boolean;
}

/** Tolerance for rounding in differences, inHg. */
const ROUNDING = 1e-9;

/**
 * Returns the spread of manifold pressures: like engines at one speed agree within the limit (1 inHg: TM
 * 1-1500-204-23-1 table 7-2 step 10). `highest` and `lowest` are engine numbers. Refused with fewer than two engines,
 * or when the speeds differ by more than `rpmTolerance`.
 */
export function pressureSpread(
  readings: readonly PowerReading[],
  limit: Limit,
  rpmTolerance: number,
): Outcome<PressureSpread> {
  if (limit.unit !== "inHg") return refused("the limit must be in inHg");
  const rpms = readings.map((r) => r.rpm);
  if (readings.length < 2) return refused("two engines are needed");
  if (!(Math.max(...rpms) - Math.min(...rpms) <= rpmTolerance))
    return refused("the engines are not at one speed");
  const byPressure = [...readings].sort((a, b) => a.manifoldInHg - b.manifoldInHg);
  const [low, high] = [byPressure[0], byPressure.at(-1)];
  if (!low || !high) return refused("two engines are needed");
  const spread = high.manifoldInHg - low.manifoldInHg;
  return found({
    spread,
    highest: high.engine,
    lowest: low.engine,
    within: spread <= limit.value + ROUNDING,
  });
}
