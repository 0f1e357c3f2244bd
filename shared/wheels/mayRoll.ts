import { isTurning } from "../engine/life.ts";
import type { SessionState } from "../session/state.ts";

/**
 * True while an engine turns, the chocks are not reported in, and the brakes are not reported set with the type's
 * pressure. Where nobody reported anything of chocks or brakes it is not known, and after the all clear was answered
 * the aircraft is meant to roll.
 */
export function mayRoll({ engines, chocks, brakes, allClearAt, type }: SessionState): boolean {
  if (allClearAt !== null || (chocks === null && brakes === null) || chocks?.in === true) return false;
  const { atLeast } = type.brakePressure;
  const pressure = brakes?.set === true ? brakes.pressure : null;
  const hold = pressure?.unit === atLeast.unit && pressure.value >= atLeast.value;
  return !hold && engines.some((e) => isTurning(e.life));
}
