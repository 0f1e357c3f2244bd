import type { AircraftType } from "./schema.ts";

/** Returns true if `order` names engines of the type, each at most once. */
export function isOrderOf(order: readonly number[], type: AircraftType): boolean {
  return (
    order.length > 0 &&
    new Set(order).size === order.length &&
    order.every((n) => type.engines.some((e) => e.n === n))
  );
}
